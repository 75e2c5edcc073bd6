package cli

import (
	"context"
	"fmt"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/store"
)

// onePart finds the one fan of the catalogue that a flag or argument names as
// PART or MAKER/PART.
func onePart(ctx context.Context, cat *store.Catalogue, flag, name string) (int, *catalog.Fan, error) {
	rows, err := cat.Lookup(name)
	if err != nil {
		return 0, nil, err
	}
	if len(rows) == 0 {
		return 0, nil, noPart(ctx, cat, flag, name)
	}
	fans, err := cat.Fans(ctx, rows)
	if err != nil {
		return 0, nil, err
	}
	found := namesakes(cat, rows, fans)
	if len(found) > 1 {
		return 0, nil, usagef("write one of "+strings.Join(namesOf(found), ", "), "%s %q stands for %d fans", flag, name, len(found))
	}
	one := found[0]
	if len(one.others) > 0 {
		one.fan.Remarks = append(one.fan.Remarks, twiceListed(cat, one))
	}
	return one.row, one.fan, nil
}

// namesake is one of the fans that a name stands for, as the source that counts
// has it.
type namesake struct {
	row    int
	fan    *catalog.Fan
	others []*catalog.Fan // the same fan as other sources have it
}

// namesakes puts the rows of one fan together, in the order of the first ones.
func namesakes(cat *store.Catalogue, rows []int, fans []*catalog.Fan) []namesake {
	var keys []string
	places := map[string][]int{}
	for i, f := range fans {
		if places[f.Key()] == nil {
			keys = append(keys, f.Key())
		}
		places[f.Key()] = append(places[f.Key()], i)
	}
	var list []namesake
	for _, key := range keys {
		var alike []int
		for _, i := range places[key] {
			alike = append(alike, rows[i])
		}
		best := places[key][cat.Counting(alike)]
		n := namesake{row: rows[best], fan: fans[best]}
		for _, i := range places[key] {
			if i != best {
				n.others = append(n.others, fans[i])
			}
		}
		list = append(list, n)
	}
	return list
}

// namesOf writes fans as onePart reads them.
func namesOf(list []namesake) []string {
	var names []string
	for _, n := range list {
		names = append(names, partName(n.fan))
	}
	return names
}

// twiceListed is the remark of a fan that several sources list.
func twiceListed(cat *store.Catalogue, n namesake) string {
	var others []string
	for _, f := range n.others {
		others = append(others, f.Source.Name)
	}
	why := "imported last"
	if n.fan.Source.Name == cat.Preferred() {
		why = "as --source says"
	}
	return fmt.Sprintf("%s also stands in %s; taken from %s, %s", n.fan.Name(), strings.Join(others, ", "), n.fan.Source.Name, why)
}

// listedTwice gives what onePart had to choose between; empty where it had not.
func listedTwice(f *catalog.Fan) string {
	if n := len(f.Remarks); n > 0 && strings.HasPrefix(f.Remarks[n-1], f.Name()+" also stands in ") {
		return f.Remarks[n-1]
	}
	return ""
}

// sayListedTwice tells that a fan stands in several sources.
func (s *session) sayListedTwice(f *catalog.Fan) {
	if said := listedTwice(f); said != "" {
		s.say("%s", said)
	}
}

func partName(f *catalog.Fan) string {
	if f.Maker == "" {
		return f.Part
	}
	return f.Maker + "/" + f.Part
}

// mostNearest is how many similar parts are named.
const mostNearest = 3

// leastCut is how much of a wrong part, from its beginning, still says which are
// meant.
const leastCut = 4

// nearestParts names the fans that a search for a wrong part finds first.
func nearestParts(ctx context.Context, cat *store.Catalogue, name string) ([]string, error) {
	hits, err := cat.Search(ctx, name, mostNearest)
	for cut := []rune(name); err == nil && len(hits) == 0 && len(cut) > leastCut; { // its end may be wrong
		cut = cut[:len(cut)-1]
		hits, err = cat.Search(ctx, string(cut), mostNearest)
	}
	if err != nil {
		return nil, err
	}
	rows := make([]int, len(hits))
	for i, h := range hits {
		rows[i] = h.Row
	}
	fans, err := cat.Fans(ctx, rows)
	return namesOf(namesakes(cat, rows, fans)), err
}

func noPart(ctx context.Context, cat *store.Catalogue, flag, name string) error {
	otherwise := ""
	if flag == "--replace" {
		otherwise = "a fan that is not there can be described with --fitted FIELD=VALUE"
	}
	return noPartIn(ctx, cat, otherwise, flag+": no fan %q in the catalogue", name)
}

// noPartIn says that a fan is not there, which come near, and what else can be
// done.
func noPartIn(ctx context.Context, cat *store.Catalogue, otherwise, format, name string) error {
	hint := "lowsone search finds parts"
	if otherwise != "" {
		hint += "; " + otherwise
	}
	nearest, err := nearestParts(ctx, cat, name)
	if err != nil {
		return err
	}
	if len(nearest) > 0 {
		hint = fmt.Sprintf("did you mean %s? %s", strings.Join(nearest, " or "), hint)
	}
	return failf(hint, format, name)
}
