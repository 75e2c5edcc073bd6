package store

import (
	"lowsone/catalog"
)

// A chunk is some consecutive rows of one source, with all that is kept of
// them. Nothing in it depends on the rows before and behind, so that chunks are
// made on several processors at once, and those of a source that an import
// leaves alone are copied as they are.

// chunkRows is the most rows of a chunk.
const chunkRows = 2048

// chunkBytes is how many bytes of texts fill a chunk before its rows do.
const chunkBytes = 4 << 20

// A piece is what a chunk keeps in one place: the column of a field, by the
// field's number, or one of those below.
type pieceID byte

const (
	pieceFrame   pieceID = 0xF0 + iota // frame and kind as words
	pieceSupply                        // supply as words
	pieceExtras                        // the columns that were not recognised
	pieceKeys                          // part numbers and codes, for the word index
	pieceMissing                       // by field: in how many rows it is unknown
	pieceTexts                         // numbers of the texts in the word index
)

// specials are the pieces that are not the column of a field, but for those that
// only come with the word index.
var specials = [...]pieceID{pieceFrame, pieceSupply, pieceExtras, pieceKeys, pieceMissing}

// chunk holds a chunk as it is kept.
type chunk struct {
	rows   int
	blocks [][]byte // records
	pieces map[pieceID][]byte
	parts  []byte // hash of each part, 8 bytes; nil where the chunk was read from a catalogue
}

// blockRows is how many records stand together: enough for what repeats from
// row to row to be told once, and little to lose to one damaged byte.
const blockRows = 32

// blocksOf gives the number of blocks of so many rows.
func blocksOf(rows int) int { return (rows + blockRows - 1) / blockRows }

// slots lists the pieces that hold texts for the word index, but for the extras:
// the text columns that are no keys, then frame and supply.
func (s schema) slots() []pieceID {
	var list []pieceID
	for i, d := range s {
		switch d.ID {
		case catalog.FieldMaker, catalog.FieldConnector, catalog.FieldBearing, catalog.FieldSupplier, catalog.FieldDescription:
			list = append(list, pieceID(i))
		}
	}
	return append(list, pieceFrame, pieceSupply)
}
