package tabular

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
)

// maxSheets is the most sheets a workbook may have, and the most names of other
// parts that are kept.
const maxSheets = 10_000

// workbook is what a workbook says about its sheets, ECMA-376 part 1, clause 18.2.
type workbook struct {
	*archive
	part     string // the workbook's own
	sheets   []sheetEntry
	from1904 bool // days are counted from 1904 on
	related  []relation
}

// sheetEntry is one sheet in the list of them.
type sheetEntry struct {
	name, id string
	hidden   bool
	part     string
}

// relation is what an id within a part stands for, ECMA-376 part 2, clause 9.3.
type relation struct{ id, kind, target string }

// Kinds of relations, by the last word of the addresses that name them. Both
// editions of the standard use the same words.
const (
	kindWorkbook = "officeDocument"
	kindSheet    = "worksheet"
	kindShared   = "sharedStrings"
	kindStyles   = "styles"
)

// readWorkbook finds the sheets of a workbook, or says what else the archive is.
func readWorkbook(ctx context.Context, a *archive) (*workbook, error) {
	w := &workbook{archive: a, part: "xl/workbook.xml"}
	root, err := w.relations(ctx, "_rels/.rels")
	if err != nil {
		return nil, err
	}
	for _, r := range root {
		if target := partName(r.target); r.kind == kindWorkbook && a.has(target) && !a.has(w.part) {
			w.part = target
		}
	}
	if !a.has(w.part) || !strings.HasPrefix(w.part, "xl/") || path.Ext(w.part) != ".xml" {
		return nil, a.noWorkbook(ctx)
	}
	if err := w.readSheets(ctx); err != nil {
		return nil, err
	}
	dir, base := path.Split(w.part)
	w.related, err = w.relations(ctx, dir+"_rels/"+base+".rels")
	return w, err
}

// relations reads what the ids within a part stand for.
func (w *workbook) relations(ctx context.Context, part string) (list []relation, err error) {
	dir := path.Dir(path.Dir(part))
	err = w.read(ctx, part, func(m *markup) error {
		if m.is(opens, "Relationships", "Relationship") && m.attr("TargetMode") != "External" {
			r := relation{m.attr("Id"), path.Base(m.attr("Type")), m.attr("Target")}
			if !strings.HasPrefix(r.target, "/") {
				r.target = path.Join(dir, r.target)
			}
			list = append(list, r)
		}
		return tooMany(len(list))
	})
	return list, err
}

func (w *workbook) readSheets(ctx context.Context) error {
	err := w.read(ctx, w.part, func(m *markup) error {
		switch {
		case m.is(opens, "workbook", "workbookPr"):
			w.from1904 = isTrue(m.attr("date1904"))
		case m.is(opens, "sheets", "sheet"):
			e := sheetEntry{name: unescaped(m.attr("name")), id: m.attr("id")}
			if e.name == "" {
				e.name = fmt.Sprintf("sheet %d", len(w.sheets)+1)
			}
			state := m.attr("state")
			e.hidden = state != "" && state != "visible"
			w.sheets = append(w.sheets, e)
		}
		return tooMany(len(w.sheets))
	})
	return err
}

func tooMany(n int) error {
	if n > maxSheets {
		return fmt.Errorf("it lists more than %d parts", maxSheets)
	}
	return nil
}

// isTrue reads a truth of XML Schema.
func isTrue(text string) bool { return text == "1" || text == "true" }

// read hands each event of a part to take. A part that is not there has none.
func (w *workbook) read(ctx context.Context, part string, take func(*markup) error) error {
	r, err := w.open(ctx, part, maxHelper)
	if r == nil || err != nil {
		return err
	}
	return w.each(part, newMarkup(r), take)
}

// each hands each event to take.
func (a *archive) each(part string, m *markup, take func(*markup) error) error {
	for {
		err := m.next()
		if err == nil {
			err = take(m)
		}
		switch {
		case err == io.EOF:
			return nil
		case err != nil:
			return a.broken(part, err)
		}
	}
}

// broken explains why the XML of a part cannot be read on.
func (a *archive) broken(part string, err error) error {
	var own *Error
	switch {
	case errors.As(err, &own):
		return own
	case errors.Is(err, errLong):
		return a.fail(ErrTooLong, saveAsTable, "%s: a text or tag in it is longer than %d bytes", part, MaxRecord)
	}
	return a.damaged(part, err)
}

// tables finds the sheets that hold cells, in order. There are others, of one
// chart each.
func (w *workbook) tables() []sheetEntry {
	parts := map[string]string{}
	for _, r := range slices.Backward(w.related) {
		if r.kind == kindSheet {
			parts[r.id] = r.target
		}
	}
	var list []sheetEntry
	for _, e := range w.sheets {
		if e.part = parts[e.id]; e.part != "" {
			list = append(list, e)
		}
	}
	return list
}

// choose picks the sheet named, or the usual one: the first that is not hidden.
func (w *workbook) choose(name string) (sheet sheetEntry, others []sheetEntry, usual bool, err error) {
	tables := w.tables()
	first := slices.IndexFunc(tables, func(e sheetEntry) bool { return !e.hidden })
	i := first
	if name != "" {
		i = slices.IndexFunc(tables, func(e sheetEntry) bool { return e.name == name })
	}
	if name != "" && i < 0 {
		i = slices.IndexFunc(tables, func(e sheetEntry) bool { return strings.EqualFold(e.name, name) })
	}
	if i >= 0 {
		return tables[i], slices.Delete(slices.Clone(tables), i, i+1), i == first, nil
	}
	e := &Error{File: w.file, Reason: fmt.Sprintf("there is no sheet %q", name), Err: ErrSheet}
	switch {
	case len(tables) == 0:
		e.Reason, e.Err = "the workbook holds no sheet of cells", ErrEmpty
	case name == "":
		e.Reason, e.Hint = "every sheet is hidden", "name one with --sheet NAME: "+sheetNames(tables)
	default:
		e.Hint = "its sheets are " + sheetNames(tables)
	}
	return sheetEntry{}, nil, false, e
}

// next gives the sheet to read behind one: the next that is not hidden, else any
// that is not, else the first of the others.
func (w *workbook) next(chosen sheetEntry, others []sheetEntry) sheetEntry {
	tables := w.tables()
	at := slices.IndexFunc(tables, func(e sheetEntry) bool { return e.name == chosen.name })
	for _, list := range [][]sheetEntry{tables[at+1:], others} {
		if i := slices.IndexFunc(list, func(e sheetEntry) bool { return !e.hidden }); i >= 0 {
			return list[i]
		}
	}
	return others[0]
}

// helper is the part of a kind that the workbook has once: where its relations
// say, and then it must be there, or where it mostly is.
func (w *workbook) helper(kind string) (part string, err error) {
	for _, r := range w.related {
		if r.kind == kind {
			return r.target, w.mustHave(r.target)
		}
	}
	return path.Join(path.Dir(w.part), kind+".xml"), nil
}

// mustHave refuses a workbook without a part that it names.
func (w *workbook) mustHave(part string) error {
	if w.has(part) {
		return nil
	}
	return w.damaged(part, errors.New("it is not there"))
}

// sheetNames lists the first sheets for a message.
func sheetNames(list []sheetEntry) string {
	const most = 20
	var names []string
	for i, e := range list {
		if i == most {
			names = append(names, fmt.Sprintf("and %d more", len(list)-most))
			break
		}
		name := fmt.Sprintf("%q", e.name)
		if e.hidden {
			name += " (hidden)"
		}
		names = append(names, name)
	}
	return strings.Join(names, ", ")
}
