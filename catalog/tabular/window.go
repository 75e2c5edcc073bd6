package tabular

import (
	"bytes"
	"context"
	"errors"
	"io"
)

// errLong is what a window answers once a record has outgrown its limit.
var errLong = errors.New("record outgrows the window")

// chunk is how much text is read at once.
const chunk = 64 << 10

// window hands decoded text to encoding/csv and keeps what it handed out since
// mark, as it stood in the file. On the way it drops form feeds and turns each
// lone CR into LF, which is of the same length, so that offsets on both sides
// agree.
//
// csv.Reader.InputOffset moves on within a record of several lines, so it cannot
// bound one; mark moves only when its owner says that a record has ended.
type window struct {
	ctx   context.Context
	src   io.Reader
	limit int

	buf   []byte // text from offset base on, as it stood in the file
	base  int64
	lines int   // line ends before base
	given int64 // up to where the text was handed out
	mark  int64 // where the record being read begins
	eof   bool
	err   error // why no more is handed out
}

// Read hands out text. It is called only when all handed out before has been
// consumed, so what lies between mark and given belongs to one record.
func (w *window) Read(p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	for w.err == nil {
		if w.given-w.mark > int64(w.limit) && w.outgrown() {
			w.err = errLong
			break
		}
		if n := w.give(p); n > 0 {
			return n, nil
		}
		w.fill()
	}
	return 0, w.err
}

// outgrown reports whether the record is over the limit without the blank
// lines before it, which it steps over.
func (w *window) outgrown() bool {
	text := w.buf[w.mark-w.base : w.given-w.base]
	w.mark += int64(len(text) - len(bytes.TrimLeft(text, "\r\n")))
	return w.given-w.mark > int64(w.limit)
}

// give copies text not handed out yet. A CR at the very end waits for what
// follows it.
func (w *window) give(p []byte) int {
	rest := w.buf[w.given-w.base:]
	n := copy(p, rest)
	if n == len(rest) && n > 0 && rest[n-1] == '\r' && !w.eof {
		n--
	}
	for i := 0; i < n; {
		j := bytes.IndexByte(p[i:n], '\r')
		if j < 0 {
			break
		}
		i += j + 1
		if i == len(rest) || rest[i] != '\n' {
			p[i-1] = '\n'
		}
	}
	w.given += int64(n)
	return n
}

// fill reads more text behind what is kept, and lets go of all before mark.
func (w *window) fill() {
	if w.eof {
		w.err = io.EOF
		return
	}
	if err := w.ctx.Err(); err != nil {
		w.err = err
		return
	}
	w.lines += countLineEnds(w.buf[:w.mark-w.base])
	w.buf = append(w.buf[:0], w.buf[w.mark-w.base:]...)
	w.base = w.mark
	old := len(w.buf)
	w.buf = append(w.buf, make([]byte, chunk)...)
	n, err := w.src.Read(w.buf[old:])
	w.buf = w.buf[:old+dropFormFeeds(w.buf[old:old+n])]
	switch {
	case err == io.EOF:
		w.eof = true
	case err != nil:
		w.err = err
	}
}

// dropFormFeeds closes up the text over each form feed and returns the new length.
func dropFormFeeds(b []byte) int {
	i := bytes.IndexByte(b, '\f')
	if i < 0 {
		return len(b)
	}
	n := i
	for _, c := range b[i:] {
		if c != '\f' {
			b[n] = c
			n++
		}
	}
	return n
}

// text returns what stood in the file between two offsets, from mark on.
func (w *window) text(from, to int64) []byte {
	return w.buf[from-w.base : to-w.base]
}

// line is the physical line the text at an offset stands on.
func (w *window) line(offset int64) int {
	return 1 + w.lines + countLineEnds(w.buf[:offset-w.base])
}

// countLineEnds counts LF, CRLF and lone CR.
func countLineEnds(text []byte) int {
	n := bytes.Count(text, []byte{'\n'})
	if bytes.IndexByte(text, '\r') < 0 {
		return n
	}
	return n + bytes.Count(text, []byte{'\r'}) - bytes.Count(text, []byte("\r\n"))
}
