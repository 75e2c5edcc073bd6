package tabular

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
)

// maxDepth is how many elements may stand one within another. Those of a workbook
// go some ten deep.
const maxDepth = 100

// event is what markup comes to.
type event byte

const (
	opens  event = iota + 1 // an element begins
	closes                  // an element ends
	text                    // text, up to the next event
	passes                  // comments and the like
)

// markup reads the XML of one part of a workbook, one event at a time. It holds
// one of them, of MaxRecord bytes at the most, and the names of the elements that
// are open; so a part of any length, with anything in it, takes no memory to speak
// of. encoding/xml has no such bounds, and takes ten times as long.
//
// It reads what XML 1.0 calls well-formed, and some of what is not: it does not ask
// whether a name is made of letters. Documents with a type of their own are
// refused: parts have none, and it can define texts that grow without end. Of names
// with a prefix only what follows it counts.
type markup struct {
	src  io.Reader
	buf  []byte // what has been read, from base on
	base int64
	at   int   // where the next event begins
	done error // why src gives no more

	path []string // elements that are open

	event event
	name  string // of the element that opens or closes
	attrs []attr
	text  []byte // good until the next event
	empty bool   // the element that opens ends at once: <v/>
	room  []byte
}

// attr is an attribute, its value as it stands between the quotes.
type attr struct {
	name     []byte
	prefixed bool
	value    []byte
}

func newMarkup(src io.Reader) *markup { return &markup{src: src} }

// next comes to the next event, or io.EOF.
func (m *markup) next() error {
	if m.empty {
		m.empty = false
		m.leave()
		return nil
	}
	if !m.has(1) {
		return m.end()
	}
	if m.buf[m.at] != '<' {
		return m.characters()
	}
	m.has(2)
	switch second := m.buf[m.at+1:]; {
	case len(second) == 0:
		return m.cut()
	case second[0] == '/':
		return m.closing()
	case second[0] == '?':
		return m.instruction()
	case second[0] == '!':
		return m.declaration()
	}
	return m.opening()
}

// end is what there is to say where no more can be read.
func (m *markup) end() error {
	switch {
	case m.done != io.EOF:
		return m.done
	case len(m.path) > 0:
		return fmt.Errorf("it ends within <%s>", m.path[len(m.path)-1])
	}
	return io.EOF
}

// cut is the same within a tag.
func (m *markup) cut() error {
	if m.done != io.EOF {
		return m.done
	}
	return errors.New("it ends within a tag")
}

func (m *markup) fail(format string, args ...any) error {
	return fmt.Errorf("byte %d of its XML: %s", m.offset(), fmt.Sprintf(format, args...))
}

// offset is how far the part has been read.
func (m *markup) offset() int64 { return m.base + int64(m.at) }

// characters takes text up to the next tag.
func (m *markup) characters() error {
	n, err := m.find(0, "<")
	if err == io.EOF {
		n, err = len(m.buf)-m.at, nil
	}
	if err != nil {
		return err
	}
	return m.take(m.buf[m.at:m.at+n], n, true)
}

// take makes a text the event, and goes on n bytes.
func (m *markup) take(raw []byte, n int, entities bool) (err error) {
	m.event = text
	m.text, m.room, err = decoded(raw, m.room, entities)
	if err != nil {
		return m.fail("%v", err)
	}
	m.at += n
	return nil
}

// closing takes an end tag.
func (m *markup) closing() error {
	n, err := m.find(2, ">")
	if err != nil {
		return m.inTag(err)
	}
	name, _ := bareName(trimSpaceRight(m.buf[m.at+2 : m.at+n]))
	if len(m.path) == 0 || m.path[len(m.path)-1] != string(name) {
		return m.fail("</%.40s> closes nothing", name)
	}
	m.leave()
	m.at += n + 1
	return nil
}

// leave closes the innermost element.
func (m *markup) leave() {
	last := len(m.path) - 1
	m.event, m.name = closes, m.path[last]
	m.path = m.path[:last]
}

// opening takes a start tag.
func (m *markup) opening() error {
	n, err := m.tagEnd()
	if err != nil {
		return m.inTag(err)
	}
	tag := m.buf[m.at+1 : m.at+n]
	tag, m.empty = bytes.CutSuffix(tag, []byte("/"))
	size := 0
	for size < len(tag) && !isSpace(tag[size]) {
		size++
	}
	if size == 0 {
		return m.fail("an element without a name")
	}
	if m.attrs, err = attributes(m.attrs[:0], tag[size:]); err != nil {
		return m.fail("%v", err)
	}
	m.enter(tag[:size])
	if len(m.path) > maxDepth {
		return m.fail("more than %d elements stand one within another", maxDepth)
	}
	m.at += n + 1
	return nil
}

// enter opens an element. Most have the name of the one before at the same depth.
func (m *markup) enter(name []byte) {
	bare, _ := bareName(name)
	depth := len(m.path)
	if depth < cap(m.path) && m.path[:depth+1][depth] == string(bare) {
		m.path = m.path[:depth+1]
	} else {
		m.path = append(m.path, string(bare))
	}
	m.event, m.name = opens, m.path[depth]
}

// tagEnd finds the > that ends a start tag: the first that is not quoted.
func (m *markup) tagEnd() (int, error) {
	quote := byte(0)
	for i := 1; m.has(i + 1); i++ {
		switch c := m.buf[m.at+i]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return i, nil
		}
	}
	return 0, m.done
}

// instruction takes <?…?>, and looks into the one that says how the part is
// written.
func (m *markup) instruction() error {
	n, err := m.find(2, "?>")
	if err != nil {
		return m.inTag(err)
	}
	body := m.buf[m.at+2 : m.at+n]
	if rest, ok := bytes.CutPrefix(body, []byte("xml")); ok && len(rest) > 0 && isSpace(rest[0]) {
		if err := m.checkEncoding(rest); err != nil {
			return err
		}
	}
	m.event = passes
	m.at += n + len("?>")
	return nil
}

func (m *markup) checkEncoding(declaration []byte) error {
	attrs, _ := attributes(m.attrs[:0], declaration) // what else it says is of no use here
	for _, a := range attrs {
		if set := strings.ToLower(string(a.value)); string(a.name) == "encoding" && set != "" && set != "utf-8" && set != "us-ascii" {
			return fmt.Errorf("%w, but in %q", errOtherCharset, a.value)
		}
	}
	return nil
}

var errOtherCharset = errors.New("it is not written in UTF-8")

// declaration takes a comment or a quoted text.
func (m *markup) declaration() error {
	const comment, quoted = "<!--", "<![CDATA["
	m.has(len(quoted))
	rest := m.buf[m.at:]
	switch {
	case bytes.HasPrefix(rest, []byte(comment)):
		n, err := m.find(len(comment), "-->")
		if err != nil {
			return m.inTag(err)
		}
		m.event = passes
		m.at += n + len("-->")
		return nil
	case bytes.HasPrefix(rest, []byte(quoted)):
		n, err := m.find(len(quoted), "]]>")
		if err != nil {
			return m.inTag(err)
		}
		return m.take(m.buf[m.at+len(quoted):m.at+n], n+len("]]>"), false)
	}
	return m.fail("a document type of its own is not read")
}

// inTag is the error of a tag that has no end.
func (m *markup) inTag(err error) error {
	if err == io.EOF {
		return m.cut()
	}
	return err
}
