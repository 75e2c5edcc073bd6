package cli

import (
	"lowsone/catalog"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

// sourceChoice is the source that a command is to look at; empty: all.
type sourceChoice string

// apply gives the rows of the source, as a filter asks for them, and has them
// count.
func (c sourceChoice) apply(cat *store.Catalogue) (from, to int, err error) {
	if c == "" {
		return 0, 0, nil
	}
	if err = cat.Prefer(string(c)); err == nil {
		from, to, err = cat.Span(string(c))
	}
	return from, to, asUnknownSource(err)
}

// listedOf lists, of fans that are shown, those that several sources list.
func listedOf(cat *store.Catalogue, twins *store.Twins, rows []int, fans []*catalog.Fan) []view.Listed {
	var list []view.Listed
	for i, rows := range twins.Others(rows) {
		var others []string
		for _, other := range rows {
			others = append(others, cat.Source(other))
		}
		if len(others) > 0 {
			list = append(list, view.Listed{Fan: fans[i], Others: others})
		}
	}
	return list
}

// sayListed says which fans several sources list.
func (s *session) sayListed(list []view.Listed, chosen sourceChoice) {
	if text := view.ListedWords(list, chosen != ""); text != "" {
		s.say("%s", text)
	}
}

// counted puts in the place of each row that is set aside the one that counts,
// once.
func counted(twins *store.Twins, rows []int) []int {
	if twins.Parts() == 0 {
		return rows
	}
	seen := map[int]bool{}
	var list []int
	for _, row := range rows {
		if row = twins.Counts(row); !seen[row] {
			seen[row] = true
			list = append(list, row)
		}
	}
	return list
}
