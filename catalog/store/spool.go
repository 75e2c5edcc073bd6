package store

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
)

// spool keeps the records of an import in a file until all rows are known.
// Only then is it known which of them later rows overtake, and how many there
// are.
type spool struct {
	file *os.File
	w    *bufio.Writer
	rows int
	dead []uint64 // bit by row: overtaken
}

func createSpool(path string) (*spool, error) {
	f, err := os.Create(path)
	if err != nil {
		return nil, err
	}
	return &spool{file: f, w: bufio.NewWriterSize(f, 1<<18)}, nil
}

func (s *spool) add(record []byte) error {
	var length [binary.MaxVarintLen32]byte
	if _, err := s.w.Write(length[:binary.PutUvarint(length[:], uint64(len(record)))]); err != nil {
		return err
	}
	if s.rows%64 == 0 {
		s.dead = append(s.dead, 0)
	}
	s.rows++
	_, err := s.w.Write(record)
	return err
}

func (s *spool) drop(row int) { s.dead[row/64] |= 1 << (row % 64) }

// each passes the records that were not dropped, in the order they were added.
// A record is only valid during its call.
func (s *spool) each(pass func(record []byte) error) error {
	if err := s.w.Flush(); err != nil {
		return err
	}
	if _, err := s.file.Seek(0, io.SeekStart); err != nil {
		return err
	}
	r := bufio.NewReaderSize(s.file, 1<<18)
	var record []byte
	for row := range s.rows {
		length, err := binary.ReadUvarint(r)
		if err == nil && length > maxRecord {
			err = fmt.Errorf("record of %d bytes", length)
		}
		if err == nil {
			record = append(record[:0], make([]byte, length)...)
			_, err = io.ReadFull(r, record)
		}
		if err != nil {
			return fmt.Errorf("read back import: %w", err)
		}
		if s.dead[row/64]>>(row%64)&1 == 1 {
			continue
		}
		if err := pass(record); err != nil {
			return err
		}
	}
	return nil
}

// remove ends the spool.
func (s *spool) remove() error {
	return errors.Join(s.file.Close(), os.Remove(s.file.Name()))
}
