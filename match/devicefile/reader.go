package devicefile

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// reader fills the parts of a document from nodes, by their tables.
type reader struct{ problems }

// notKnown is the word for a value that is not known; so is nothing at all.
const notKnown = "unknown"

// part reads the keys of a part and says whether anything stood there.
func (r *reader) part(name string, n *node, key Place, t table, into any) bool {
	switch n.shape {
	case empty:
		return false
	case mapping:
	default:
		r.addf(n.at, "write its keys below it, indented: "+sample(t), "%s is %s, not %s", name, shapeNames[n.shape], shapeNames[mapping])
		return false
	}
	blank := n.blank()
	if !blank {
		into.(placer).stands(key)
	}
	seen := map[string]Place{}
	for _, p := range n.pairs {
		if first, twice := seen[p.key]; twice {
			r.addf(p.at, "", "%s stands here twice, first in line %d", quoted(p.key), first.Line)
			continue
		}
		seen[p.key] = p.at
		e, ok := t.find(p.key)
		if !ok {
			r.unknownKey(name, p, t)
			continue
		}
		e.read(r, p.value, p.at, into)
	}
	if !blank {
		r.missing(name, key, t, n)
	}
	return !blank
}

// missing refuses a part without a key it must have, and keys that exclude each
// other.
func (r *reader) missing(name string, key Place, t table, n *node) {
	var stands []pair
	for _, e := range t.entries {
		p, ok := n.find(e.name)
		if ok {
			stands = append(stands, p)
		}
		if e.must && !ok && !slices.ContainsFunc(e.or, n.has) {
			r.addf(key, e.howTo(), "%s lacks %s", name, e.name)
		}
		if other, both := n.find(e.instead); ok && both {
			r.addf(other.at, e.which, "%s and %s exclude each other", e.name, e.instead)
		}
	}
	if t.oneOf && len(stands) > 1 {
		r.addf(stands[1].at, "begin a new item of the list with -", "%s and %s stand in one item", stands[0].key, stands[1].key)
	}
}

func (r *reader) unknownKey(name string, p pair, t table) {
	if r.full() {
		r.more++
		return
	}
	hint := nearestKey(p.key, t.names())
	if hint == "" {
		hint = "valid here: " + strings.Join(t.names(), ", ")
	}
	if home := homeOf(p.key, t); home != "" {
		hint = p.key + " belongs under " + home + ", indented"
	}
	r.addf(p.at, hint, "%s has no key %s", name, quoted(p.key))
}

// nearestKey names the key that begins with the given one, else the nearest.
func nearestKey(key string, names []string) string {
	for _, n := range names {
		if strings.HasPrefix(n, key+"_") {
			return "did you mean " + n + "?"
		}
	}
	return catalog.Nearest(key, names)
}

// items gives the items of a list.
func (r *reader) items(name string, n *node) []*node {
	switch n.shape {
	case empty:
		return nil
	case listing:
		return n.items
	}
	r.addf(n.at, "begin each item with -", "%s is %s, not %s", name, shapeNames[n.shape], shapeNames[listing])
	return nil
}

// word gives the text of a single value; not ok where none is stated.
func (r *reader) word(name string, n *node) (text string, ok bool) {
	switch n.shape {
	case empty:
		return "", false
	case word:
		text = strings.TrimSpace(n.word)
		switch {
		case text == "":
			r.addf(n.at, "leave the key out where nothing is known", "%s is empty", name)
		case strings.ContainsFunc(text, unicode.IsControl):
			r.addf(n.at, "", "%s holds a control character", name)
		default:
			return text, text != notKnown
		}
		return "", false
	}
	r.addf(n.at, "", "%s is %s, not %s", name, shapeNames[n.shape], shapeNames[word])
	return "", false
}

// refuse says why a text is no value of a key.
func (p *problems) refuse(name string, at Place, err error) {
	var (
		f *fault
		v *catalog.ValueError
		q *quantity.ParseError
	)
	switch {
	case errors.As(err, &f):
		p.addf(at, f.hint, "%s %s", name, f.reason)
	case errors.As(err, &v):
		p.addf(at, inFile(v.Hint), "%s %s: %s", name, quoted(v.Text), v.Reason)
	case errors.As(err, &q):
		p.addf(at, q.Hint, "%s %s: %s", name, quoted(q.Text), q.Reason)
	default:
		p.addf(at, "", "%s: %v", name, err)
	}
}

// fault says why a text is no value, with the mend.
type fault struct{ reason, hint string }

func (f *fault) Error() string { return f.reason }

// quoted writes a text of the file for a message: control characters escaped,
// long ones cut.
func quoted(s string) string {
	const most = 60
	if runes := []rune(s); len(runes) > most {
		s = string(runes[:most]) + "…"
	}
	return fmt.Sprintf("%q", s)
}

// find gives the first pair of a key that has a value.
func (n *node) find(key string) (pair, bool) {
	for _, p := range n.pairs {
		if p.key == key && !p.value.blank() {
			return p, true
		}
	}
	return pair{}, false
}

func (n *node) has(key string) bool {
	_, ok := n.find(key)
	return ok
}

// blank says whether nothing stands in a node, at any depth.
func (n *node) blank() bool {
	for _, p := range n.pairs {
		if !p.value.blank() {
			return false
		}
	}
	for _, i := range n.items {
		if !i.blank() {
			return false
		}
	}
	return n.shape != word || n.word == notKnown
}

// sample names some keys of a table.
func sample(t table) string {
	names := t.names()
	if len(names) > 3 {
		names = append(names[:3:3], "…")
	}
	return strings.Join(names, ", ")
}

// howTo says how a missing key is written.
func (e entry) howTo() string {
	if e.body == nil {
		return strings.Join(append([]string{"add " + e.name + ": " + e.example}, e.or...), ", or ")
	}
	return "add " + e.name + ": and below it, indented, " + sample(e.body())
}

// inFile puts a hint of the catalogue, which speaks of cells and columns, into
// the words of a file.
func inFile(hint string) string {
	return strings.NewReplacer(
		"leave the cell empty where", "leave the key out where",
		"check the unit of the column", "check the unit",
		"name the unit B in the header or the cell", "write the unit: B",
	).Replace(hint)
}

// homeOf names the part of the file a key belongs to: one right below table t,
// else the only one there is. Pieces of geometry are left out: their sizes stand
// all over.
func homeOf(key string, t table) string {
	for _, e := range t.entries {
		if e.body != nil && !t.oneOf {
			if _, ok := e.body().find(key); ok {
				return e.name
			}
		}
	}
	var homes []string
	var walk func(t table, under string)
	walk = func(t table, under string) {
		for _, e := range t.entries {
			switch {
			case e.name == key && under != "":
				homes = append(homes, under)
			case e.body != nil && e.name != "geometry":
				walk(e.body(), strings.TrimPrefix(under+": "+e.name, ": "))
			}
		}
	}
	walk(deviceTable(), "")
	if len(homes) != 1 {
		return ""
	}
	return homes[0]
}
