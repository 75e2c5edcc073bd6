package devicefile

import (
	"io"
	"strings"
)

const templateHead = `# A device file: what you know of a device that is too loud, and its fans.
#
# Fill in what you know behind the colons, with units, the decimal mark a point:
# 60 mm, 12 V, 90 W, 24 °C, 33 dB(A), 55 %. Leave the rest blank. Every line you
# fill makes the answer sharper; "lowsone device check" tells what is missing and
# what it would be good for.
#
# Before you measure inside: unplug, wait until capacitors have lost their charge,
# and keep fingers from blades and hot parts. Never defeat a thermal cut-out or a
# fan alarm. Medical, safety and fire-protection devices, sealed mains modules and
# ducts that carry fumes are for licensed people.

`

// Template writes an empty device file with a comment at every key. It is
// itself a file that Parse understands: what is blank is not known.
func Template(w io.Writer) error {
	_, err := io.WriteString(w, template(func(table, entry) string { return "" }))
	return err
}

// template writes the template with a value behind each colon of a leaf.
func template(value func(of table, e entry) string) string {
	t := templater{value: value}
	t.b.WriteString(templateHead)
	t.table(deviceTable(), "", "")
	return t.b.String()
}

type templater struct {
	b     strings.Builder
	value func(of table, e entry) string
}

// table writes the keys of a table, the first behind first, the others behind
// indent.
func (t *templater) table(of table, first, indent string) {
	lead := first
	for _, e := range of.entries {
		if e.hidden {
			continue
		}
		t.entry(of, e, lead, indent)
		lead = indent
	}
}

func (t *templater) entry(of table, e entry, lead, indent string) {
	switch {
	case e.body == nil:
		t.line(strings.TrimRight(lead+e.name+": "+t.value(of, e), " "), e.comment())
		return
	case indent == "" || indent == "    ":
		t.b.WriteByte('\n')
	}
	t.line(lead+e.name+":", e.about)
	switch body := e.body(); {
	case body.oneOf:
		for _, kind := range body.entries {
			if one := inline(kind); one != "" {
				t.line(indent+"  # - "+one, "")
			}
		}
	case e.many:
		t.table(body, indent+"  - ", indent+"    ")
	default:
		t.table(body, indent+"  ", indent+"  ")
	}
}

// comment tells what a leaf means and how it is written.
func (e entry) comment() string {
	said := e.about
	switch {
	case e.form.kind == formChoice:
		return said + ": " + strings.Join(e.form.words, " | ")
	case e.form.kind == formYesNo:
		return said + ": yes | no"
	case e.instead != "":
		said += "; instead of " + e.instead
	case len(e.or) > 0:
		said = "needed unless " + strings.Join(e.or, " or ") + " stands: " + said
	case e.must:
		said = "needed: " + said
	}
	return said + ", such as " + e.example
}

// Columns of the template: comments begin in one, no line goes beyond another
// unless it holds a single word.
const commentColumn, lastColumn = 28, 100

// line writes a line with its comment, wrapped.
func (t *templater) line(text, comment string) {
	at := max(commentColumn, columns(text)+2)
	for _, part := range wrapped(comment, lastColumn-at-2) {
		t.b.WriteString(text + strings.Repeat(" ", at-columns(text)) + "# " + part + "\n")
		text = ""
	}
	if text != "" {
		t.b.WriteString(text + "\n")
	}
}

// wrapped breaks a text into lines of at most width.
func wrapped(text string, width int) (lines []string) {
	for _, word := range strings.Fields(text) {
		last := len(lines) - 1
		if last >= 0 && (word == "|" || columns(lines[last])+1+columns(word) <= width) {
			lines[last] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return lines
}

// inline writes a kind of piece with its examples in one line, so that it can
// be copied; empty for kinds that hold pieces themselves.
func inline(e entry) string {
	var keys []string
	for _, k := range e.body().entries {
		switch {
		case k.instead != "" || k.name == "name":
		case k.body == nil:
			keys = append(keys, k.name+": "+k.example)
		case k.many:
			return ""
		default:
			keys = append(keys, inline(k))
		}
	}
	return e.name + ": {" + strings.Join(keys, ", ") + "}"
}
