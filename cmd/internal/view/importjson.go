package view

import (
	"time"

	"lowsone/catalog"
	"lowsone/catalog/intake"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/tabular"
)

type importJSON struct {
	Schema
	File        string            `json:"file"`
	Source      string            `json:"source"`
	Before      *beforeJSON       `json:"last_import,omitempty"`
	Forgotten   List[string]      `json:"forgotten_options"`
	DryRun      bool              `json:"dry_run"`
	Changed     bool              `json:"changed"`
	Rows        int               `json:"rows"`
	Imported    int               `json:"imported"`
	Rejected    int               `json:"rejected"`
	Repeated    int               `json:"repeated"`
	Unchanged   int               `json:"unchanged"`
	Overtaken   int               `json:"overtaken"`
	Gone        int               `json:"gone"`
	Renewed     bool              `json:"renewed"`
	Fans        int               `json:"fans"`
	Unrankable  int               `json:"unrankable"`
	Missing     List[lackJSON]    `json:"missing"`
	Values      List[takenJSON]   `json:"values"`
	Unstated    List[string]      `json:"unstated"`
	Format      dialectJSON       `json:"format"`
	Columns     List[columnJSON]  `json:"columns"`
	Warnings    List[warningJSON] `json:"warnings"`
	Rejects     List[rejectJSON]  `json:"rejects"`
	RejectsFile string            `json:"rejects_file,omitempty"`
}

// takenJSON is a value given for the rows that do not state it.
type takenJSON struct {
	Field string `json:"field"`
	Value string `json:"value"`
	Rows  int    `json:"rows"`
}

// beforeJSON is what the source was read from before.
type beforeJSON struct {
	File     string `json:"file,omitempty"`
	Sheet    string `json:"sheet,omitempty"`
	Imported string `json:"imported"`
}

// dialectJSON is how a file is written. A sheet has no encoding, delimiter and
// line_end, a text no sheet and other_sheets.
type dialectJSON struct {
	Sheet       string        `json:"sheet,omitempty"`
	OtherSheets *List[string] `json:"other_sheets,omitempty"`

	Encoding   string       `json:"encoding,omitempty"`
	Delimiter  string       `json:"delimiter,omitempty"`
	Decimal    string       `json:"decimal,omitempty"`
	HeaderLine int          `json:"header_line"`
	LineEnd    string       `json:"line_end,omitempty"`
	TitleLines int          `json:"title_lines"`
	Lenient    bool         `json:"lenient"`
	Notes      List[string] `json:"notes"`
}

type columnJSON struct {
	Header  string           `json:"header"`
	Number  int              `json:"number"`
	Field   string           `json:"field,omitempty"`
	Fields  List[string]     `json:"fields"`
	Unit    string           `json:"unit,omitempty"`
	How     string           `json:"how"`
	Why     string           `json:"why,omitempty"`
	Check   bool             `json:"check"`
	Assumed string           `json:"assumed,omitempty"`
	Decimal string           `json:"decimal,omitempty"`
	Samples List[sampleJSON] `json:"samples"`
	Notes   List[string]     `json:"notes"`
}

type sampleJSON struct {
	Cell  string `json:"cell"`
	Value string `json:"value,omitempty"`
	Fault bool   `json:"fault,omitempty"`
}

type warningJSON struct {
	Header string `json:"header,omitempty"`
	Reason string `json:"reason"`
	Rows   int    `json:"rows"`
	Line   int    `json:"line"`
	// Example holds the numbers of the first row.
	Example string `json:"example,omitempty"`
}

type rejectJSON struct {
	Line   int    `json:"line"`
	Column int    `json:"column,omitempty"`
	Header string `json:"header,omitempty"`
	Cell   string `json:"cell"`
	Reason string `json:"reason"`
	Hint   string `json:"hint,omitempty"`
}

// JSON gives the object of the import.
func (m *Import) JSON() any {
	j := importJSON{
		File: m.File, Source: m.Source, DryRun: m.DryRun, Changed: m.Changed, Renewed: m.Renewed,
		Rows: m.Rows, Imported: m.Imported, Rejected: m.Rejected, Repeated: m.Repeated, Unchanged: m.Unchanged, Overtaken: m.Overtaken,
		Gone: m.Gone, Fans: m.Fans, Unrankable: m.Unrankable,
		Forgotten: m.Forgotten, Format: dialectOf(m.Format), RejectsFile: m.RejectsFile,
	}
	if b := m.Account.Before; b.Name != "" {
		j.Before = &beforeJSON{b.Path, b.Sheet, b.Imported.UTC().Format(time.RFC3339)}
	}
	for _, l := range m.Lacks {
		j.Missing = append(j.Missing, lackJSON{catalog.Fields[l.Field].Name, l.Fans})
	}
	for _, v := range m.Values {
		j.Values = append(j.Values, takenJSON{catalog.Fields[v.Field].Name, v.Text, v.Rows})
	}
	for _, id := range m.Unstated {
		j.Unstated = append(j.Unstated, catalog.Fields[id].Name)
	}
	for i := range m.Columns {
		j.Columns = append(j.Columns, columnOf(&m.Columns[i]))
	}
	for _, w := range m.Warnings {
		j.Warnings = append(j.Warnings, warningJSON{w.Header, w.Reason, w.Count, w.Line, w.Example})
	}
	for _, r := range m.Rejects {
		j.Rejects = append(j.Rejects, rejectOf(r))
	}
	return j
}

func dialectOf(d tabular.Dialect) dialectJSON {
	j := dialectJSON{
		Encoding: d.Encoding.Value, HeaderLine: d.HeaderLine.Value, LineEnd: string(d.LineEnd.Value),
		TitleLines: d.TitleLines, Lenient: d.Lenient, Notes: d.Notes,
	}
	if d.Sheet == "" {
		j.Delimiter = tabular.DelimiterName(d.Delimiter.Value)
	} else {
		others := List[string](d.OtherSheets)
		j.Sheet, j.OtherSheets = d.Sheet, &others
	}
	if d.Decimal.Value != 0 {
		j.Decimal = string(rune(d.Decimal.Value))
	}
	return j
}

func columnOf(c *partscsv.Column) columnJSON {
	j := columnJSON{
		Header: c.Header, Number: c.Number, Field: c.FieldName(), Unit: c.Unit,
		How: string(c.How), Why: c.Why, Check: c.Check, Assumed: c.Assumed, Decimal: c.Decimal, Notes: c.Notes,
	}
	for _, id := range c.Fields {
		j.Fields = append(j.Fields, catalog.Fields[id].Name)
	}
	for _, s := range c.Samples {
		j.Samples = append(j.Samples, sampleJSON{s.Cell, s.Value, s.Fault})
	}
	return j
}

func rejectOf(r intake.Reject) rejectJSON {
	return rejectJSON{r.At.Line, r.At.Column, r.Header, r.Cell, r.Reason, r.Hint}
}
