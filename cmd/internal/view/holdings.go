package view

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"lowsone/catalog"
)

// Holdings is what a catalogue holds.
type Holdings struct {
	Dir     string
	Fans    int // rows of all sources
	Sources []Source
	Several int    // fans that several sources list
	Aside   int    // rows of them that do not count
	Missing []Lack // every field that some row does not state
}

// Source is one parts file of a catalogue.
type Source struct {
	Name     string
	Path     string
	Sheet    string // of a workbook
	Fans     int
	Imported time.Time
}

type holdingsJSON struct {
	Schema
	Dir     string              `json:"dir"`
	Fans    int                 `json:"fans"`
	Sources List[sourceRowJSON] `json:"sources"`
	Several int                 `json:"several_sources"`
	Aside   int                 `json:"rows_set_aside"`
	Missing List[lackJSON]      `json:"missing"`
}

type sourceRowJSON struct {
	Name     string `json:"name"`
	File     string `json:"file,omitempty"`
	Sheet    string `json:"sheet,omitempty"`
	Fans     int    `json:"fans"`
	Imported string `json:"imported"`
}

// JSON gives the object of the catalogue.
func (h *Holdings) JSON() any {
	j := holdingsJSON{Dir: h.Dir, Fans: h.Fans, Several: h.Several, Aside: h.Aside, Missing: lacksJSON(h.mostMissing())}
	for _, s := range h.Sources {
		j.Sources = append(j.Sources, sourceRowJSON{s.Name, s.Path, s.Sheet, s.Fans, s.Imported.UTC().Format(time.RFC3339)})
	}
	return j
}

// CSV lists the sources.
func (h *Holdings) CSV(w io.Writer) error {
	out := csv.NewWriter(w)
	rows := [][]string{{"source", "file", "fans", "imported", "sheet"}}
	for _, s := range h.Sources {
		rows = append(rows, []string{s.Name, s.Path, strconv.Itoa(s.Fans), s.Imported.UTC().Format(time.RFC3339), s.Sheet})
	}
	return out.WriteAll(rows)
}

// mostMissing orders what is missing, the most first, equals in the order of
// the fields.
func (h *Holdings) mostMissing() []Lack {
	sorted := slices.Clone(h.Missing)
	slices.SortStableFunc(sorted, func(a, b Lack) int {
		return cmp.Or(cmp.Compare(b.Fans, a.Fans), cmp.Compare(a.Field, b.Field))
	})
	return sorted
}

// listRows is how many rows a list for people has before "N more".
const listRows = 10

// Text writes the sources and what is missing most.
func (h *Holdings) Text(w io.Writer, style Style) error {
	p := &printer{w: w, style: style}
	p.line("%s in %s", count(h.Fans-h.Aside, "fan"), Clean(h.Dir))
	if h.Several > 0 {
		p.wrapped("", fmt.Sprintf("%d rows: %s listed by several sources, and counts as the one imported last has it", h.Fans, several(h.Several)))
	}
	if h.Fans == 0 || p.err != nil {
		return p.err
	}
	p.line("")
	if err := h.sourceTable().Write(w, style); err != nil {
		return err
	}
	p.line("")
	if text := h.asked(); text != "" && p.err == nil {
		p.wrapped("", text)
		p.line("")
	}
	return cmp.Or(p.err, h.missingTable().Write(w, style))
}

// several gives how many fans are listed twice and more.
func several(n int) string {
	if n == 1 {
		return "1 fan is"
	}
	return fmt.Sprintf("each of %d fans is", n)
}

// asked says what is missing of that which ranking asks for.
func (h *Holdings) asked() string {
	var parts []string
	for _, l := range h.Missing {
		switch l.Field {
		case catalog.FieldKind, catalog.FieldWidth, catalog.FieldDepth, catalog.FieldVoltage,
			catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldNoise:
			parts = append(parts, catalog.Fields[l.Field].Title+" by "+count(l.Fans, "row"))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "asked by rank and not stated: " + strings.Join(parts, ", ")
}

func (h *Holdings) sourceTable() *Table {
	t := &Table{Columns: []Column{
		{Title: "source", Wrap: true},
		{Title: "rows", Number: true},
		{Title: "imported"},
		{Title: "file", Wrap: true, Optional: true},
	}}
	for _, s := range h.Sources {
		t.Add(s.Name, strconv.Itoa(s.Fans), s.Imported.Local().Format("2006-01-02 15:04"), s.place())
	}
	return t
}

// place is the file, and the sheet where it has sheets.
func (s *Source) place() string {
	if s.Sheet == "" {
		return s.Path
	}
	return strings.TrimPrefix(fmt.Sprintf("%s, sheet %q", s.Path, s.Sheet), ", ")
}

func (h *Holdings) missingTable() *Table {
	t := &Table{Columns: []Column{
		{Title: "missing most"},
		{Title: "rows", Number: true},
		{Title: "share", Number: true},
	}}
	missing := h.mostMissing()
	for _, l := range missing[:min(len(missing), listRows)] {
		t.Add(catalog.Fields[l.Field].Title, strconv.Itoa(l.Fans), share(l.Fans, h.Fans))
	}
	if more := len(missing) - listRows; more > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("%d more: --format json shows all", more))
	}
	return t
}

// share gives part of all in per cent, never 100 % or 0 % where that is not so.
func share(part, all int) string {
	percent := 100 * float64(part) / float64(all)
	switch {
	case part < all && percent > 99:
		return ">99 %"
	case part > 0 && percent < 1:
		return "<1 %"
	}
	return Fixed(percent, 0) + " %"
}

// count gives a number of things, with the plural where it is due.
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}
