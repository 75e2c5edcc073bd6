package tabular

import (
	"bytes"
	"encoding/csv"
	"io"
	"slices"
)

// cellCounts counts the cells of each row of the sample that is not blank. A
// record whose quotes are not closed has swallowed the rows behind it; its lines
// are counted one by one, lest a quote mark decide what the delimiter is.
func cellCounts(sample []byte, whole bool, r rune) (counts []int, ranOver bool) {
	c := csv.NewReader(bytes.NewReader(sample))
	c.Comma = r
	c.FieldsPerRecord = -1
	c.LazyQuotes = true
	c.ReuseRecord = true
	for from := int64(0); len(counts) < sampleRows; {
		fields, err := c.Read()
		if err != nil {
			break
		}
		record := sample[from:c.InputOffset()]
		from = c.InputOffset()
		cutOff := !whole && from == int64(len(sample))
		record = record[blankLines(record):]
		switch {
		case runsOver(record, from == int64(len(sample)), r):
			counts = append(counts, lineCounts(record, cutOff, r)...)
			ranOver = true
		case cutOff && len(counts) > 0:
		case !allBlank(fields):
			counts = append(counts, len(fields))
		}
	}
	return counts[:min(len(counts), sampleRows)], ranOver
}

// runsOver reports whether a record goes beyond its lines for want of a quote
// mark.
func runsOver(record []byte, last bool, r rune) bool {
	if !last && !bytes.ContainsAny(bytes.TrimRight(record, "\r\n"), "\r\n") {
		return false
	}
	_, open := openQuote(record, r, quoting{lenient: true})
	return open
}

// lineCounts counts the cells of the lines of a record as if it had no quotes.
func lineCounts(record []byte, cutOff bool, r rune) []int {
	var counts []int
	lines := bytes.Split(bytes.TrimRight(record, "\r\n"), []byte{'\n'})
	if cutOff {
		lines = lines[:len(lines)-1]
	}
	for _, line := range lines {
		if !isBlank(string(line)) {
			counts = append(counts, 1+bytes.Count(line, []byte(string(r))))
		}
	}
	return counts
}

// closed drops the splits that leave quotes open, if there is one by which all
// quotes are as they should be.
func closed(splits []split, sample []byte, whole bool) []split {
	ranOver := func(s split) bool { return s.ranOver }
	if !slices.ContainsFunc(splits, ranOver) {
		return splits
	}
	clean := func(s split) bool { return !s.ranOver && strictlyQuoted(sample, whole, s.delimiter) }
	if slices.ContainsFunc(splits, clean) {
		return slices.DeleteFunc(splits, ranOver)
	}
	return splits
}

// strictlyQuoted reports whether a delimiter leaves no quote mark out of place.
func strictlyQuoted(sample []byte, whole bool, r rune) bool {
	c := csv.NewReader(bytes.NewReader(sample))
	c.Comma = r
	c.FieldsPerRecord = -1
	c.ReuseRecord = true
	for {
		if _, err := c.Read(); err != nil {
			return err == io.EOF || !whole && c.InputOffset() == int64(len(sample))
		}
	}
}
