package view

import (
	"fmt"
	"io"

	"lowsone/catalog/intake"
)

// CatalogExport is what an export holds.
type CatalogExport struct {
	File     string
	Exported intake.Exported
}

type catalogExportJSON struct {
	Schema
	File    string       `json:"file"`
	Fans    int          `json:"fans"`
	Sources List[string] `json:"sources"`
	LeftOut int          `json:"left_out"`
}

// JSON gives the object.
func (c *CatalogExport) JSON() any {
	e := &c.Exported
	return catalogExportJSON{File: c.File, Fans: e.Fans, Sources: e.Sources, LeftOut: e.Aside}
}

// Text writes it in a line.
func (c *CatalogExport) Text(w io.Writer, style Style) error {
	p := &printer{w: w, style: style.within(proseWidth)}
	if e := &c.Exported; e.Fans > 0 {
		p.wrapped("", Clean(fmt.Sprintf("%s of %s written to %s", count(e.Fans, "fan"), count(len(e.Sources), "source"), c.File)))
	}
	return p.err
}
