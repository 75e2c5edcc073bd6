package tabular

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
)

// isSpace says what is white space, XML 1.0, section 2.3.
func isSpace(c byte) bool { return c == ' ' || c == '\n' || c == '\t' || c == '\r' }

func trimSpaceLeft(b []byte) []byte {
	for len(b) > 0 && isSpace(b[0]) {
		b = b[1:]
	}
	return b
}

func trimSpaceRight(b []byte) []byte {
	for len(b) > 0 && isSpace(b[len(b)-1]) {
		b = b[:len(b)-1]
	}
	return b
}

// has reports whether n more bytes can be had, and has read them then.
func (m *markup) has(n int) bool {
	for len(m.buf)-m.at < n {
		if m.done != nil || m.fill() != nil {
			return false
		}
	}
	return true
}

// fill reads more text behind what is kept, and lets go of all before the event.
func (m *markup) fill() error {
	if len(m.buf)-m.at > MaxRecord {
		m.done = errLong
	}
	if m.done != nil {
		return m.done
	}
	if m.at > 0 {
		m.base += int64(m.at)
		m.buf = m.buf[:copy(m.buf, m.buf[m.at:])]
		m.at = 0
	}
	kept := len(m.buf)
	m.buf = slices.Grow(m.buf, chunk)
	n, err := m.src.Read(m.buf[kept : kept+chunk])
	m.buf = m.buf[:kept+n]
	m.done = err
	if n > 0 {
		return nil // the error is for when all before it has been used
	}
	return err
}

// find finds a sign, from so many bytes behind the beginning of the event on, and
// gives its distance from there. Where there is none it gives the error of the
// source, io.EOF at its end.
func (m *markup) find(from int, sign string) (int, error) {
	for {
		if i := bytes.Index(m.buf[min(m.at+from, len(m.buf)):], []byte(sign)); i >= 0 {
			return from + i, nil
		}
		from = max(from, len(m.buf)-m.at-len(sign)+1)
		if !m.has(len(m.buf) - m.at + 1) {
			return 0, m.done
		}
	}
}

// bareName takes the prefix off a name, if both have letters.
func bareName(name []byte) (bare []byte, prefixed bool) {
	if i := bytes.IndexByte(name, ':'); i > 0 && i < len(name)-1 {
		return name[i+1:], true
	}
	return name, false
}

// attributes takes the rest of a tag apart.
func attributes(list []attr, tag []byte) ([]attr, error) {
	for {
		tag = trimSpaceLeft(tag)
		if len(tag) == 0 {
			return list, nil
		}
		i := bytes.IndexByte(tag, '=')
		if i <= 0 {
			return list, fmt.Errorf("an attribute without a value: %.40q", tag)
		}
		a := attr{}
		name := trimSpaceRight(tag[:i])
		a.name, a.prefixed = bareName(name)
		if a.prefixed && bytes.HasPrefix(name, []byte("xmlns:")) {
			a.name = name // it names a prefix
		}
		tag = trimSpaceLeft(tag[i+1:])
		if len(tag) < 2 || tag[0] != '"' && tag[0] != '\'' {
			return list, errors.New("the value of an attribute is not quoted")
		}
		end := bytes.IndexByte(tag[1:], tag[0])
		if end < 0 {
			return list, errors.New("the value of an attribute is not closed")
		}
		a.value, tag = tag[1:1+end], tag[2+end:]
		list = append(list, a)
	}
}

// attr is an attribute of the element that opens, empty where it has none. The
// one without a prefix is meant where both are there.
func (m *markup) attr(name string) string {
	var value []byte
	for i := range m.attrs {
		if a := &m.attrs[i]; string(a.name) == name {
			value = a.value
			if !a.prefixed {
				break
			}
		}
	}
	if len(value) == 0 {
		return ""
	}
	plain, _, err := decoded(value, nil, true)
	if err != nil {
		return string(value) // what asks for it finds that it is no answer
	}
	return string(plain)
}

// within is the element that an event stands in: the one around an element that
// opens or closes, the one that a text belongs to; with levels the ones around it.
func (m *markup) within(levels int) string {
	n := len(m.path) - levels
	if m.event == opens {
		n--
	}
	if n < 1 {
		return ""
	}
	return m.path[n-1]
}

// is reports whether an element opens, or closes, as e has it, within another.
func (m *markup) is(e event, parent, name string) bool {
	return m.event == e && m.name == name && m.within(0) == parent
}

// textItem adds to buf the text of an element that has just opened: that of its t
// elements, alone or in runs, but for hints how to pronounce it.
func (m *markup) textItem(buf []byte) ([]byte, error) {
	outside := len(m.path) - 1
	from := len(buf)
	for {
		if err := m.next(); err != nil {
			return buf, err
		}
		switch {
		case m.event == closes && len(m.path) == outside:
			return buf, nil
		case m.event == text && m.within(0) == "t" && m.within(1) != "rPh":
			buf = append(buf, m.text...)
		}
		if len(buf)-from > MaxRecord {
			return buf, errLong
		}
	}
}
