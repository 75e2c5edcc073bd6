package devicefile

import "slices"

// An entry is a key that may stand in a part of the file: what it means, what
// its values look like, and where they go. The tables of entries are the one
// source of reading, schema and template.
type entry struct {
	name    string
	about   string   // in the template and the schema
	example string   // of a leaf, as it is written
	form    form     // of a leaf
	must    bool     // a part without it is refused
	or      []string // keys that may stand for one that must
	instead string   // a key beside it that excludes it
	which   string   // of the two to keep
	hidden  bool     // not in the template: rarely wanted, or one of many alike

	body func() table // of a part or a list of parts, nil for a leaf
	many bool         // a list

	read func(r *reader, n *node, at Place, into any)
}

// table lists the keys of a part.
type table struct {
	name    string // for $defs of the schema; unique
	entries []entry
	oneOf   bool // exactly one of the entries stands there
}

func (t table) find(name string) (entry, bool) {
	i := slices.IndexFunc(t.entries, func(e entry) bool { return e.name == name })
	if i < 0 {
		return entry{}, false
	}
	return t.entries[i], true
}

func (t table) names() []string {
	names := make([]string, len(t.entries))
	for i, e := range t.entries {
		names[i] = e.name
	}
	return names
}

// form is what the values of a leaf look like.
type form struct {
	kind   formKind
	words  []string // of a choice
	symbol string   // of the preferred unit of a quantity
	low    float64  // bounds of a number or quantity, in that unit; both 0: none
	high   float64
}

type formKind uint8

const (
	formText     formKind = iota
	formChoice            // one of words
	formQuantity          // a number with a unit
	formShare             // a number with %
	formSpeed             // a speed or a share
	formLength            // a length, or none
	formCount             // a whole number
	formNumber            // a plain number
	formYesNo
	formField // a value of the tool's own CSV: a number, or text
	formWords // a list of words
	formBands // bands with their levels
)

// section is embedded in every part: where it stands, if it does.
type section struct {
	at    Place
	given bool
}

func (s *section) stands(at Place) { s.at, s.given = at, true }

type placer interface{ stands(Place) }

// placed is a value with its place; the zero value was not given.
type placed[T any] struct {
	v     T
	given bool
	at    Place
}

func (p placed[T]) or(other T) T {
	if p.given {
		return p.v
	}
	return other
}

// needed marks the key as one that cannot be missing.
func (e entry) needed() entry { e.must = true; return e }

// unless names the keys of which one may stand for a needed one.
func (e entry) unless(keys ...string) entry { e.or = keys; return e }

// as sets the example.
func (e entry) as(example string) entry { e.example = example; return e }

// not names the key that excludes this one, and which of the two to keep.
func (e entry) not(other, which string) entry { e.instead, e.which = other, which; return e }

// leaf makes an entry of a single value.
func leaf[S, T any](name, about, example string, f form, parse func(string) (T, error), at func(*S) *placed[T]) entry {
	return entry{name: name, about: about, example: example, form: f,
		read: func(r *reader, n *node, key Place, into any) {
			text, ok := r.word(name, n)
			if !ok {
				return
			}
			v, err := parse(text)
			if err != nil {
				r.refuse(name, n.at, err)
				return
			}
			*at(into.(*S)) = placed[T]{v, true, n.at}
		}}
}

// part makes an entry of keys below it.
func part[S, P any](name, about string, body func() table, at func(*S) *P) entry {
	return entry{name: name, about: about, body: body,
		read: func(r *reader, n *node, key Place, into any) { r.part(name, n, key, body(), at(into.(*S))) }}
}

// list makes an entry of a list of parts. Items in which nothing stands are
// passed over, so that the template's blanks may stay.
func list[S, P any](name, about string, body func() table, at func(*S) *[]P) entry {
	return entry{name: name, about: about, body: body, many: true,
		read: func(r *reader, n *node, key Place, into any) {
			t := body()
			for _, item := range r.items(name, n) {
				var p P
				if r.part(t.name, item, item.at, t, &p) {
					to := at(into.(*S))
					*to = append(*to, p)
				}
			}
		}}
}
