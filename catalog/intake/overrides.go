package intake

import (
	"fmt"
	"slices"
	"strings"

	"lowsone/catalog/partscsv"
	"lowsone/catalog/tabular"
)

// overrides lists the options that say how a file is to be read, as a shell is
// given them.
func (o *Options) overrides() []string {
	var list []string
	for _, a := range o.Columns {
		list = append(list, a.Option())
	}
	for i := range o.Values {
		list = append(list, o.Values[i].Option())
	}
	option := func(given bool, name, value string) {
		if given {
			list = append(list, "--"+name+" "+partscsv.ShellQuoted(value))
		}
	}
	f := &o.Format
	option(f.Delimiter != 0, "delimiter", tabular.DelimiterName(f.Delimiter))
	option(f.Encoding != "", "encoding", f.Encoding)
	option(f.Decimal != 0, "decimal", string(rune(f.Decimal)))
	option(f.HeaderLine != 0, "header-line", fmt.Sprint(f.HeaderLine))
	option(f.Sheet != "", "sheet", f.Sheet)
	for i, text := range list {
		list[i] = strings.Join(strings.Fields(text), " ") // a header may have lines
	}
	return list
}

// forgotten lists the options of the last import that this one has in no form.
func (o *Options) forgotten(last string) []string {
	var list []string
	now := o.overrides()
	for text := range strings.Lines(last) {
		text = strings.TrimSuffix(text, "\n")
		if !slices.ContainsFunc(now, func(n string) bool { return subject(n) == subject(text) }) {
			list = append(list, text)
		}
	}
	return list
}

// subject gives what an option is about: --column noise_dba of
// --column noise_dba=Schall, --decimal of --decimal ",".
func subject(option string) string {
	name, value, _ := strings.Cut(option, " ")
	if field, _, ok := strings.Cut(value, "="); ok && (name == "--column" || name == "--value") {
		return name + " " + field
	}
	return name
}
