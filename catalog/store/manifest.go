package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"lowsone/catalog"
)

// formatVersion is the form of a generation, the only one that is read: older
// ones (1 and 2 had records and words row by row) are imported again.
const formatVersion = 3

// manifest says what a generation holds. It is written last: a generation
// without one was never finished.
type manifest struct {
	Format   int            `json:"format"`
	Number   int            `json:"generation,omitempty"` // that it is the manifest of; 0 where none is said
	Rows     int            `json:"rows"`
	Fields   []storedField  `json:"fields"`
	Missing  []int          `json:"missing"` // by field: rows in which it is unknown
	Sources  []storedSource `json:"sources"` // by name, in the order of their rows
	Texts    int            `json:"texts"`   // in the word index
	Branches branches       `json:"branches"`
	Files    []storedFile   `json:"files"`
}

type storedSource struct {
	Name     string    `json:"name"`
	Path     string    `json:"path,omitempty"`
	Sheet    string    `json:"sheet,omitempty"`
	Rows     int       `json:"rows"`
	Chunks   []int     `json:"chunks"` // rows of each
	Imported time.Time `json:"imported"`
	CRC      uint32    `json:"crc32c,omitempty"` // of its records, one block behind the other
	Options  string    `json:"options,omitempty"`
}

// storedFile is a file of the generation as it was when finished.
type storedFile struct {
	Name string `json:"name"` // with slashes, below the generation
	Size int64  `json:"size"`
	CRC  uint32 `json:"crc32c"`
}

// sealed is a manifest with its checksum.
type sealed struct {
	CRC      uint32          `json:"crc32c"`
	Manifest json.RawMessage `json:"manifest"`
}

func (m *manifest) encode() ([]byte, error) {
	content, err := json.Marshal(m)
	if err != nil {
		return nil, err
	}
	b, err := json.Marshal(sealed{crc32.Checksum(content, castagnoli), content})
	return append(b, '\n'), err
}

// readManifest reads the manifest at path. Errors: *DamagedError, *NewerError,
// *OlderError, with which what could be read comes too, those of reading.
func readManifest(path string) (*manifest, error) {
	b, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, &DamagedError{path, "it is missing"}
	}
	if err != nil {
		return nil, err
	}
	m, err := decodeManifest(path, b)
	if n, _ := generationNumber(filepath.Base(filepath.Dir(path))); err == nil && m.Number > 0 && m.Number != n {
		return nil, &DamagedError{path, fmt.Sprintf("it is the one of %s", generationName(m.Number))}
	}
	return m, err
}

func decodeManifest(path string, b []byte) (*manifest, error) {
	var s sealed
	if err := json.Unmarshal(b, &s); err != nil {
		return nil, &DamagedError{path, err.Error()}
	}
	if crc32.Checksum(s.Manifest, castagnoli) != s.CRC {
		return nil, &DamagedError{path, "its content has changed"}
	}
	m := &manifest{}
	// A newer form may not fit the struct, but it says what it is.
	err := json.Unmarshal(s.Manifest, m)
	switch {
	case m.Format > formatVersion:
		return nil, &NewerError{path, fmt.Sprintf("it has format %d, this program knows up to %d", m.Format, formatVersion)}
	case m.Format > 0 && m.Format < formatVersion:
		return m, &OlderError{path, fmt.Sprintf("it has format %d, this program reads format %d", m.Format, formatVersion)}
	}
	if err != nil {
		return nil, &DamagedError{path, err.Error()}
	}
	if reason := m.fault(); reason != "" {
		return nil, &DamagedError{path, reason}
	}
	return m, nil
}

// fault says what in the manifest contradicts itself; empty where nothing does.
func (m *manifest) fault() string {
	rows := 0
	for _, s := range m.Sources {
		rows += s.Rows
		if reason := s.fault(); reason != "" {
			return reason
		}
	}
	switch {
	case m.Format < 1:
		return fmt.Sprintf("it has format %d", m.Format)
	case rows != m.Rows:
		return fmt.Sprintf("its sources have %d rows, not %d", rows, m.Rows)
	case len(m.Missing) != len(m.Fields):
		return fmt.Sprintf("it counts %d fields of %d", len(m.Missing), len(m.Fields))
	}
	return ""
}

func (s *storedSource) fault() string {
	rows := 0
	for _, n := range s.Chunks {
		if n < 1 || n > chunkRows {
			return fmt.Sprintf("source %q has a chunk of %d rows", s.Name, n)
		}
		rows += n
	}
	if s.Rows != rows {
		return fmt.Sprintf("source %q has %d rows, its chunks %d", s.Name, s.Rows, rows)
	}
	return ""
}

// misfit says which file of the generation in dir, among those that ours
// picks, has not the size it was written with; empty where all have.
func (m *manifest) misfit(dir string, ours func(name string) bool) (path, reason string) {
	for _, f := range m.Files {
		if !ours(f.Name) {
			continue
		}
		path := filepath.Join(dir, filepath.FromSlash(f.Name))
		info, err := os.Stat(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return path, "it is missing"
		case err != nil:
			return path, err.Error()
		case info.Size() != f.Size:
			return path, fmt.Sprintf("it holds %d bytes, %d were written", info.Size(), f.Size)
		}
	}
	return "", ""
}

// span gives the rows of a source: begin to before end.
func (m *manifest) span(source string) (begin, end int) {
	for _, s := range m.Sources {
		if s.Name == source {
			return begin, begin + s.Rows
		}
		begin += s.Rows
	}
	return 0, 0
}

// chunkSpan gives the chunks of a source: begin to before end.
func (m *manifest) chunkSpan(source string) (begin, end int) {
	for _, s := range m.Sources {
		if s.Name == source {
			return begin, begin + len(s.Chunks)
		}
		begin += len(s.Chunks)
	}
	return 0, 0
}

func (m *manifest) info(dir string, generation int, fields schema) Info {
	info := Info{Dir: dir, Generation: generation, Rows: m.Rows}
	for _, s := range m.Sources {
		info.Sources = append(info.Sources, s.info())
	}
	for id := range info.Missing {
		info.Missing[id] = m.Rows // a field the generation does not have
	}
	for i, d := range fields {
		info.Missing[d.ID] = m.Missing[i]
	}
	return info
}

func (s *storedSource) info() SourceInfo {
	return SourceInfo{Name: s.Name, Path: s.Path, Sheet: s.Sheet, Rows: s.Rows, Imported: s.Imported, Options: s.Options}
}

// has says whether a field of the schema is known in any row.
func (m *manifest) has(fields schema, id catalog.FieldID) (number int, ok bool) {
	number = fields.number(id)
	return number, number >= 0 && m.Missing[number] < m.Rows
}
