package view

import (
	"fmt"
	"io"

	"lowsone/catalog/store"
)

// CatalogRepair is what a repair of the catalogue did.
type CatalogRepair struct{ Repaired *store.Repaired }

type catalogRepairJSON struct {
	Schema
	Found    reportJSON     `json:"found"`
	Repaired bool           `json:"repaired"`
	Fans     int            `json:"fans"`
	Lost     List[lossJSON] `json:"lost"`
	Before   bool           `json:"as_before_last_import"`
}

// JSON gives the object of the repair.
func (c *CatalogRepair) JSON() any {
	r := c.Repaired
	return catalogRepairJSON{Found: reportOf(r.Report), Repaired: !r.Report.Whole(), Fans: r.Rows, Lost: lossesJSON(r.Lost), Before: r.Before}
}

// Text writes what was found, and what became of it.
func (c *CatalogRepair) Text(w io.Writer, style Style) error {
	p := &printer{w: w, style: style.within(proseWidth)}
	r := c.Repaired
	p.report(r.Report)
	p.line("")
	switch {
	case r.Report.Whole():
		p.line("nothing to repair: nothing was written")
		return p.err
	case r.Pointed:
		p.wrapped("repaired: ", fmt.Sprintf("it is known again which generation is the live one; %s as before", count(r.Rows, "row")))
		return p.err
	}
	p.line("repaired: %s", count(r.Rows, "row"))
	for _, l := range r.Lost {
		p.wrapped("lost: ", Clean(fmt.Sprintf("%s of %q", count(l.Rows, "row"), l.Source)))
	}
	if r.Before {
		p.wrapped("", "nothing was left of the catalogue itself: it is now as it was before the last import")
	}
	if r.Kept > 0 {
		p.wrapped("", fmt.Sprintf("generation %d, the damaged one, is kept beside until the next import or repair; till then check names it", r.Kept))
	}
	return p.err
}
