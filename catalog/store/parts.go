package store

import (
	"cmp"
	"encoding/binary"
	"hash/fnv"
	"slices"
	"sort"
)

// The table of parts leads from a part, blanks and case folded, to its rows:
// pairs of a hash and a row, sorted and cut into chunks. The fences are the
// first hash of every chunk. Rows of other parts with the same hash are told
// apart by their records.

const (
	partsPerChunk = 4096
	partBytes     = 12
)

type partEntry struct {
	hash uint64
	row  uint32
}

// partHash gives the hash of a folded part. Folding is not repeated: folding
// twice may give something else.
func partHash(folded string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(folded))
	return h.Sum64()
}

// writeParts sorts the entries and writes them.
func writeParts(w *blobWriter, entries []partEntry) error {
	slices.SortFunc(entries, func(a, b partEntry) int {
		return cmp.Or(cmp.Compare(a.hash, b.hash), cmp.Compare(a.row, b.row))
	})
	var fences []byte
	chunk := 0
	for group := range slices.Chunk(entries, partsPerChunk) {
		fences = binary.LittleEndian.AppendUint64(fences, group[0].hash)
		var b []byte
		for _, e := range group {
			b = binary.LittleEndian.AppendUint64(b, e.hash)
			b = binary.LittleEndian.AppendUint32(b, e.row)
		}
		if err := w.put(partsPlace(chunk), b); err != nil {
			return err
		}
		chunk++
	}
	return w.put(fencesPlace, fences)
}

// rowsWith lists the rows whose part has the hash, rising.
func rowsWith(get getter, hash uint64) ([]int, error) {
	fences, err := get(fencesPlace)
	if err != nil {
		return nil, err
	}
	chunks := len(fences) / 8
	fence := func(i int) uint64 { return binary.LittleEndian.Uint64(fences[8*i:]) }
	// The chunk before the first that begins at the hash or above may end with it.
	first := max(0, sort.Search(chunks, func(i int) bool { return fence(i) >= hash })-1)
	var rows []int
	for i := first; i < chunks && fence(i) <= hash; i++ {
		b, err := get(partsPlace(i))
		if err != nil {
			return nil, err
		}
		at := sort.Search(len(b)/partBytes, func(j int) bool { return entryAt(b, j).hash >= hash })
		for ; at < len(b)/partBytes && entryAt(b, at).hash == hash; at++ {
			rows = append(rows, int(entryAt(b, at).row))
		}
	}
	return rows, nil
}

func entryAt(b []byte, i int) partEntry {
	b = b[i*partBytes:]
	return partEntry{binary.LittleEndian.Uint64(b), binary.LittleEndian.Uint32(b[8:])}
}
