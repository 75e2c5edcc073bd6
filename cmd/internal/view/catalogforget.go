package view

import (
	"fmt"
	"io"

	"lowsone/catalog/intake"
)

// CatalogForget is what was forgotten.
type CatalogForget struct{ Forgotten intake.Forgotten }

type catalogForgetJSON struct {
	Schema
	Source string         `json:"source"`
	Fans   int            `json:"fans"`
	Left   int            `json:"left"`
	DryRun bool           `json:"dry_run"`
	Lost   List[lossJSON] `json:"lost"`
}

// JSON gives the object.
func (c *CatalogForget) JSON() any {
	f := &c.Forgotten
	return catalogForgetJSON{Source: f.Source, Fans: f.Fans, Left: f.Left, DryRun: f.DryRun, Lost: lossesJSON(f.Lost)}
}

// Text writes it in a line.
func (c *CatalogForget) Text(w io.Writer, style Style) error {
	p := &printer{w: w, style: style.within(proseWidth)}
	f := &c.Forgotten
	does := "forgotten"
	if f.DryRun {
		does = "would be forgotten"
	}
	p.wrapped("", Clean(fmt.Sprintf("%s: %s of %q; %s of other sources", does, count(f.Fans, "row"), f.Source, stay(f.Left))))
	for _, l := range f.Lost {
		p.wrapped("", Clean(fmt.Sprintf("%s of %q could no longer be read and are gone: import it again", count(l.Rows, "row"), l.Source)))
	}
	if f.DryRun {
		p.line("dry run: nothing was written")
	}
	return p.err
}

// stay gives how many rows stay.
func stay(n int) string {
	if n == 1 {
		return "1 row stays"
	}
	return fmt.Sprintf("%d rows stay", n)
}
