// Package store keeps the catalogue on disk and answers from it: records by
// row number, columns for filtering and ranking, rows by part, and rows by
// words.
//
// # Generations
//
// A catalogue is a folder of generations. An import builds a new one beside
// the live one and then renames the small file CURRENT, which names it: the
// catalogue answers as the old or as the new one, always whole, wherever the
// import is killed. Everything is synced before the rename. The generation
// before the live one is kept. Readers hold the generation they opened with a
// shared lock, so that it stays as long as they read; they never write and
// never wait for an import. One import runs at a time.
//
// Rows are numbered from 0 without gaps, by the names of their sources and
// then as they were added, so that a catalogue does not depend on the order of
// its imports. Row numbers hold for one generation.
//
// # What a generation holds
//
// The rows of a source stand in chunks of up to 2048 (chunk.go). All that is
// kept of a chunk depends on its rows alone: chunks are made on several
// processors at once while a file is read, and an import copies those of the
// sources it leaves alone.
//
// fans.db is a bbolt file of checked blobs (blobs.go): the records of a chunk in
// blocks (records.go, block.go), its columns beside those of its neighbours
// (pieces.go, coded.go, pairs.go), and the table that leads from parts to rows
// (parts.go). The records hold everything; the columns can be made of them anew.
// The folder words is the word index (catalog/index) of the different texts;
// which rows have a text stands in the columns (words.go). manifest.json says
// what all this is and has a checksum of its own; it names the fields by their
// names, so that a field added to the field table later leaves older catalogues
// readable. A form this program does not know is a *NewerError and is never
// overwritten; one it no longer reads is an *OlderError.
//
// Whoever looks through all fans once takes a View: it reads chunk by chunk on all
// processors into the same memory, a few chunks at a time however large the
// catalogue is (scan.go). Columns are loaded whole where rows are compared with
// each other (load.go); single rows come from their records.
//
// # Damage
//
// A changed byte, a short or a missing file is found when it is read and comes
// back as a *DamagedError that names the file; it never panics and never gives
// another value. Columns and records answer without the word index. A damaged
// byte of the records takes 32 rows at the most, one of a column none.
//
// Check reads everything and says what is damaged and what that means. Repair and
// Begin are the ways back: both keep every record of which a whole copy is left
// (rescue.go). Records have their own checksums over the place they belong to, so
// they are found without the pages of the file, wherever they stand (sift.go); the
// file says by itself what it holds, where the manifest is gone (about.go); and
// the generation before gives what it has of a source that has not been imported
// anew since. What is lost is counted by source.
//
// # Size and speed
//
// Measured on full rows of an invented distributor's list (24 fields, 258 bytes
// as CSV): 275 bytes a row in fans.db, of which 120 are records, and 2 in words.
// A catalogue opens in 0.2 ms, whatever its size: columns and words are read
// only when asked for, and search does not read records.
package store
