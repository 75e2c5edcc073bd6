package tabular

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/iotest"
)

// eventsOf writes down all events of a text, one a line, and the error that ends
// them.
func eventsOf(r io.Reader) (events []string, err error) {
	m := newMarkup(r)
	for {
		if err := m.next(); err != nil {
			return events, err
		}
		switch m.event {
		case opens:
			line := "<" + m.name
			for _, a := range m.attrs {
				line += fmt.Sprintf(" %s=%q", a.name, m.attr(string(a.name)))
			}
			events = append(events, line)
		case closes:
			events = append(events, "</"+m.name)
		case text:
			events = append(events, fmt.Sprintf("%q", m.text))
		}
	}
}

// eventsOfLibrary does the same with encoding/xml. Where an element has several
// attributes of one name, it gives each the value that markup gives it.
func eventsOfLibrary(source string) (events []string, err error) {
	d := xml.NewDecoder(strings.NewReader(source))
	depth := 0
	for {
		token, err := d.RawToken()
		if err != nil {
			return events, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			depth++
			line := "<" + t.Name.Local
			for _, a := range t.Attr {
				name := a.Name.Local
				if a.Name.Space == "xmlns" {
					name = "xmlns:" + name
				}
				line += fmt.Sprintf(" %s=%q", name, libraryAttr(t.Attr, name))
			}
			events = append(events, line)
		case xml.EndElement:
			depth--
			events = append(events, "</"+t.Name.Local)
		case xml.CharData:
			events = append(events, fmt.Sprintf("%q", t))
		case xml.Directive:
			return events, errors.New("a document type")
		}
	}
}

func libraryAttr(attrs []xml.Attr, name string) string {
	value := ""
	for _, a := range attrs {
		full := a.Name.Local
		if a.Name.Space == "xmlns" {
			full = "xmlns:" + full
		}
		if full != name {
			continue
		}
		value = a.Value
		if a.Name.Space == "" {
			break
		}
	}
	return value
}

var markupSeeds = []string{
	``, `x`, `<a/>`, `<a></a>`, `<a b="1" c='2'>x<d/>y</a>`, `<?xml version="1.0" encoding="UTF-8"?><a/>`, `<?xml version='1.0' encoding='utf-16'?><a/>`,
	`<a>&lt;&gt;&amp;&apos;&quot;&#65;&#x42;&#xD800;&#0;</a>`, `<a b="&lt;&#10;"/>`, "<a>x\r\ny\rz</a>", "<a>\x00</a>", "<a>\xff\xfe</a>",
	`<a><![CDATA[<b>&amp;]]></a>`, `<a><!-- <b> --></a>`, `<!DOCTYPE a><a/>`, `<x:a y:b="1" b="2" xmlns:x="u"/>`, `<:a a:=""/>`, `<a:b:c/>`,
	`<a ></a >`, "<a\n\tb = \"1\"/>", `<a b=1/>`, `<a b/>`, `<a b="1/>`, `<a`, `</a>`, `<a></b>`, `<a>]]></a>`, `<a b=">"/>`, `< a/>`, `<a/ >`, `<>`, `<a b="1"c="2"/>`,
	`<?a?>`, `<?xml?>`, `<?xmlx encoding="z"?><a/>`, "\ufeff<a/>", `<a>` + strings.Repeat(`<b>`, 120),
}

// FuzzMarkup holds the reading of XML against encoding/xml: what that takes for
// well-formed must give the same events.
func FuzzMarkup(f *testing.F) {
	for _, s := range markupSeeds {
		f.Add(s)
	}
	f.Fuzz(checkMarkup)
}

func checkMarkup(t *testing.T, source string) {
	got, err := eventsOf(strings.NewReader(source))
	slow, slowErr := eventsOf(iotest.OneByteReader(strings.NewReader(source)))
	if strings.Join(got, "\n") != strings.Join(slow, "\n") || fmt.Sprint(err) != fmt.Sprint(slowErr) {
		t.Fatalf("events of %q = %q, %v, byte by byte %q, %v", source, got, err, slow, slowErr)
	}
	want, wantErr := eventsOfLibrary(source)
	if wantErr != io.EOF || !balanced(want) || errors.Is(err, errOtherCharset) {
		return
	}
	if err != io.EOF || strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Fatalf("events of %q = %q, %v, want %q as encoding/xml has them", source, got, err, want)
	}
}

// balanced says whether each element ends, in its turn, and none is too deep:
// encoding/xml does not ask.
func balanced(events []string) bool {
	var path []string
	for _, e := range events {
		switch {
		case strings.HasPrefix(e, "</"):
			if len(path) == 0 || path[len(path)-1] != e[2:] {
				return false
			}
			path = path[:len(path)-1]
		case strings.HasPrefix(e, "<"):
			name, _, _ := strings.Cut(e[1:], " ")
			if path = append(path, name); len(path) > maxDepth {
				return false
			}
		}
	}
	return len(path) == 0
}

// TestLongMarkup: an event may have any place in what is read at once, and has a
// bound.
func TestLongMarkup(t *testing.T) {
	for pad := chunk - 60; pad < chunk+5; pad++ {
		checkMarkup(t, `<a>`+strings.Repeat("x", pad)+`<b c="&lt;"/><!-- y --><![CDATA[z]]>&amp;</a>`)
	}
	for _, s := range []string{"<a>", "<a b='", "<!--", "<![CDATA[", "<?a ", "</", "<"} {
		_, err := eventsOf(io.MultiReader(strings.NewReader(s), endless{}))
		if !errors.Is(err, errLong) {
			t.Errorf("%s and no end: %v, want errLong", s, err)
		}
	}
	broken := errors.New("broken")
	for _, s := range []string{"", "<a>", "<a b='", "<!--", "<a>x"} {
		_, err := eventsOf(io.MultiReader(strings.NewReader(s), iotest.ErrReader(broken)))
		if !errors.Is(err, broken) {
			t.Errorf("%s and a broken reader: %v, want its error", s, err)
		}
	}
}

// endless reads x for ever.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'x'
	}
	return len(p), nil
}
