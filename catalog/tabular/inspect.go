package tabular

import (
	"context"
	"encoding/binary"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// textStats is what one look at every byte of a text tells about it.
type textStats struct {
	size      int64
	lineEnds  int
	lastCR    bool
	nulLine   int   // of the first zero byte, 0 if there is none
	controls  int64 // characters no text has
	multibyte int64 // good UTF-8 sequences of two bytes and more
	badUTF8   int64 // bytes that are no UTF-8
	badLine   int   // of the first such byte
	replaced  int64 // U+FFFD: what stands where a byte had no meaning
	replLine  int
	undefined int64 // of them, those Windows-1252 has no character for
	rest      []byte
}

// inspect reads a text to its end.
func inspect(ctx context.Context, r io.Reader) (*textStats, error) {
	s := &textStats{}
	buf := make([]byte, utf8.UTFMax+chunk)
	for {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		kept := copy(buf, s.rest)
		n, err := r.Read(buf[kept:])
		s.size += int64(n)
		s.rest = s.look(buf[:kept+n], err == io.EOF)
		if err == io.EOF {
			return s, nil
		}
		if err != nil {
			return nil, err
		}
	}
}

// look counts one piece of text and returns the beginning of a character that
// ends in the next.
func (s *textStats) look(text []byte, last bool) []byte {
	for i := 0; i < len(text); {
		if n := plainRun(text[i:]); n > 0 {
			s.lastCR = false
			i += n
			continue
		}
		c := text[i]
		switch {
		case c >= ' ' && c < 0x7f:
			s.lastCR = false
			i++
		case c < utf8.RuneSelf:
			s.control(c)
			i++
		case !last && !utf8.FullRune(text[i:]):
			return text[i:]
		default:
			i += s.wide(text[i:])
		}
	}
	return nil
}

// plainRun is how many bytes, in steps of eight, are printable ASCII.
func plainRun(text []byte) int {
	const ones, tops = 0x0101010101010101, 0x8080808080808080
	n := 0
	for ; n+8 <= len(text); n += 8 {
		x := binary.LittleEndian.Uint64(text[n:])
		// A top bit is left by a byte of 0x80 and more, below 0x20, or 0x7f.
		if (x|(x-0x20*ones)|(x+ones))&tops != 0 {
			break
		}
	}
	return n
}

func (s *textStats) control(c byte) {
	cr := s.lastCR
	s.lastCR = c == '\r'
	switch c {
	case '\n':
		if !cr {
			s.lineEnds++
		}
	case '\r':
		s.lineEnds++
	case '\t', '\f', '\v', 0x1a:
	case 0:
		if s.nulLine == 0 {
			s.nulLine = s.lineEnds + 1
		}
		s.controls++
	default:
		s.controls++
	}
}

func (s *textStats) wide(text []byte) int {
	s.lastCR = false
	r, size := utf8.DecodeRune(text)
	switch {
	case r == utf8.RuneError && size == 1:
		s.badUTF8++
		if strings.IndexByte("\x81\x8d\x8f\x90\x9d", text[0]) >= 0 {
			s.undefined++
		}
		if s.badLine == 0 {
			s.badLine = s.lineEnds + 1
		}
		return size
	case r == utf8.RuneError:
		s.replaced++
		if s.replLine == 0 {
			s.replLine = s.lineEnds + 1
		}
	}
	s.multibyte++
	return size
}

// notText says why the text is none, or nothing. A few stray control characters
// are left over in many an export; more than 1 in 100 are no text.
func (s *textStats) notText() (at Position, reason string) {
	switch {
	case s.nulLine > 0:
		return Position{Line: s.nulLine}, "not a text file: there is a zero byte on this line"
	case s.controls > 2+s.size/100:
		return Position{}, fmt.Sprintf("not a text file: %d of its %d bytes are control characters", s.controls, s.size)
	}
	return Position{}, ""
}
