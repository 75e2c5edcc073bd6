package store

import (
	"encoding/binary"
	"encoding/json"
	"fmt"
)

// Beside its records the blob file keeps what it takes to read them: fields,
// sources and chunks. The manifest has them too, but where it is lost the blob
// file can still be read by itself (sift.go).

var aboutPlace = place{bucketAbout, "manifest"}

// about gives the content of that blob: its length, four bytes, and the manifest
// without what is known of the files.
func (m *manifest) about() ([]byte, error) {
	b, err := json.Marshal(manifest{Format: m.Format, Rows: m.Rows, Fields: m.Fields, Missing: m.Missing, Sources: m.Sources})
	return append(binary.LittleEndian.AppendUint32(nil, uint32(len(b))), b...), err
}

// decodeAbout reads what about wrote. Errors: *DamagedError, *NewerError.
func decodeAbout(path string, content []byte) (*manifest, error) {
	damaged := func(reason string) error { return &DamagedError{path, fmt.Sprintf("%v: %s", aboutPlace, reason)} }
	if len(content) < 4 || uint64(len(content)-4) != uint64(binary.LittleEndian.Uint32(content)) {
		return nil, damaged(errBytes.Error())
	}
	m := &manifest{}
	err := json.Unmarshal(content[4:], m)
	if m.Format > formatVersion {
		return nil, &NewerError{path, fmt.Sprintf("it has format %d, this program knows up to %d", m.Format, formatVersion)}
	}
	if err != nil {
		return nil, damaged(err.Error())
	}
	if reason := m.fault(); reason != "" {
		return nil, damaged(reason)
	}
	return m, nil
}
