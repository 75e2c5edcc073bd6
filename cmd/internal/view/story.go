package view

import "io"

// Story says in sentences what was found, and where the order list is.
type Story struct {
	Sentences []string
	File      string
}

// JSON gives the object of the demo.
func (d *Story) JSON() any {
	return struct {
		Schema
		Found List[string] `json:"found"`
		File  string       `json:"order_file"`
	}{Found: d.Sentences, File: d.File}
}

// Text writes the sentences, and the file on the last line.
func (d *Story) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	for _, sentence := range d.Sentences {
		p.wrapped("", Clean(sentence))
	}
	p.line("")
	p.line("%s", Clean(d.File))
	return p.err
}
