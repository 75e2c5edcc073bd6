package store

import "sort"

// chunkTable says which rows the chunks of a catalogue hold.
type chunkTable struct {
	firsts []int // row of each chunk, then the number of rows
}

func chunksOf(sources []storedSource) chunkTable {
	t := chunkTable{firsts: []int{0}}
	for _, s := range sources {
		for _, rows := range s.Chunks {
			t.firsts = append(t.firsts, t.firsts[len(t.firsts)-1]+rows)
		}
	}
	return t
}

func (t chunkTable) len() int { return len(t.firsts) - 1 }

func (t chunkTable) first(chunk int) int { return t.firsts[chunk] }

func (t chunkTable) rows(chunk int) int { return t.firsts[chunk+1] - t.firsts[chunk] }

// at finds the chunk that holds a row, and its place there.
func (t chunkTable) at(row int) (chunk, place int) {
	chunk = sort.SearchInts(t.firsts, row+1) - 1
	return chunk, row - t.firsts[chunk]
}

// groupChunks is how many chunks have their pieces of one column side by side in
// one blob: a column is read whole, and every blob takes a look-up.
const groupChunks = 8

// group gives the chunks from begin to before end that a group holds.
func (t chunkTable) group(n int) (begin, end int) {
	return n * groupChunks, min((n+1)*groupChunks, t.len())
}

func (t chunkTable) groups() int { return (t.len() + groupChunks - 1) / groupChunks }
