package store

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"strings"
)

// CURRENT holds one line: the name of the live generation, and the CRC-32C of
// that name. Without it a single flipped bit could lead to the generation
// before, which is still there and whole.

func encodePointer(n int) []byte {
	name := generationName(n)
	return fmt.Appendf(nil, "%s %08x\n", name, crc32.Checksum([]byte(name), castagnoli))
}

// decodePointer reads CURRENT, or says why it leads nowhere. A line without a
// checksum was written by a program that made none.
func decodePointer(b []byte) (n int, reason string) {
	name, _, _ := strings.Cut(strings.TrimSuffix(string(b), "\n"), " ")
	n, ok := generationNumber(name)
	switch {
	case !ok:
		return 0, fmt.Sprintf("it names %.40q, which is no generation", b)
	case bytes.Equal(b, encodePointer(n)), string(b) == name+"\n":
		return n, ""
	}
	return 0, "its content has changed"
}
