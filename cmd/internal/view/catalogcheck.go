package view

import (
	"fmt"
	"io"
	"path/filepath"

	"lowsone/catalog/store"
)

// CatalogCheck is what a check of the catalogue found.
type CatalogCheck struct{ Report *store.Report }

type catalogCheckJSON struct {
	Schema
	reportJSON
}

// reportJSON is what repair tells of its check, too.
type reportJSON struct {
	Dir        string           `json:"dir"`
	Generation int              `json:"generation"`
	Fans       int              `json:"fans"`
	Files      int              `json:"files"`
	Whole      bool             `json:"whole"`
	Damage     List[damageJSON] `json:"damage"`
	Unread     List[lossJSON]   `json:"unread"`
	Lost       List[lossJSON]   `json:"lost"`
	Leftovers  List[string]     `json:"leftovers"`
}

type damageJSON struct {
	File   string `json:"file"`
	Reason string `json:"reason"`
	Means  string `json:"means"`
}

type lossJSON struct {
	Source string `json:"source"`
	Fans   int    `json:"fans"`
}

// JSON gives the object of the check.
func (c *CatalogCheck) JSON() any { return catalogCheckJSON{reportJSON: reportOf(c.Report)} }

func reportOf(r *store.Report) reportJSON {
	j := reportJSON{
		Dir: r.Dir, Generation: r.Generation, Fans: r.Rows, Files: r.Files,
		Whole: r.Whole(), Unread: lossesJSON(r.Unread), Lost: lossesJSON(r.Lost), Leftovers: r.Left,
	}
	for _, d := range r.Damage {
		j.Damage = append(j.Damage, damageJSON{d.Path, d.Reason, d.Means})
	}
	return j
}

func lossesJSON(list []store.Loss) List[lossJSON] {
	var out List[lossJSON]
	for _, l := range list {
		out = append(out, lossJSON{l.Source, l.Rows})
	}
	return out
}

// Text writes what was read and what is damaged.
func (c *CatalogCheck) Text(w io.Writer, style Style) error {
	p := &printer{w: w, style: style.within(proseWidth)}
	p.report(c.Report)
	p.losses("cannot be read", c.Report.Unread)
	p.losses("lost", c.Report.Lost)
	return p.err
}

func (p *printer) report(r *store.Report) {
	holds := count(r.Rows, "row")
	if r.Gone {
		holds = "the catalogue"
	}
	read := count(r.Files, "file") + " read"
	if r.Whole() {
		read += ": nothing is damaged; records, columns, words and the table of parts agree"
	}
	p.line("%s in %s", holds, Clean(r.Dir))
	p.wrapped("", read)
	for _, name := range r.Left {
		p.wrapped("", Clean(fmt.Sprintf("%s is left by a killed import, or one that runs; the next import sweeps it", name)))
	}
	if r.Whole() {
		return
	}
	p.line("")
	p.line("%s", p.style.Bold("damaged"))
	for _, d := range r.Damage[:min(len(r.Damage), listRows)] {
		p.hung("  ", "    ", Clean(fmt.Sprintf("%s: %s", within(r.Dir, d.Path), d.Reason)))
		p.hung("    ", "    ", Clean(d.Means))
	}
	if more := len(r.Damage) - listRows; more > 0 {
		p.line("  %d more: --format json shows all", more)
	}
}

func (p *printer) losses(what string, list []store.Loss) {
	if len(list) == 0 {
		return
	}
	p.line("")
	p.line("%s", p.style.Bold(what))
	for _, l := range list {
		p.wrapped("  ", Clean(fmt.Sprintf("%s of %q", count(l.Rows, "row"), l.Source)))
	}
}

// within gives the path of a file as seen from a folder.
func within(dir, path string) string {
	if below, err := filepath.Rel(dir, path); err == nil {
		return filepath.ToSlash(below)
	}
	return path
}
