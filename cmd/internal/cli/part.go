package cli

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

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
	if len(rows) > 1 && oneKey(fans) {
		i := lastImported(fans, cat.Info())
		return rows[i], fans[i], nil
	}
	if len(rows) > 1 {
		return 0, nil, usagef("write one of "+strings.Join(partNames(fans), ", "), "%s %q stands for %d fans", flag, name, len(rows))
	}
	return rows[0], fans[0], nil
}

// oneKey says whether fans are one part of one maker, from several sources.
func oneKey(fans []*catalog.Fan) bool {
	return !slices.ContainsFunc(fans, func(f *catalog.Fan) bool { return f.Key() != fans[0].Key() })
}

// lastImported gives the place of the fan whose source was imported last; the
// other sources are named in its remarks.
func lastImported(fans []*catalog.Fan, info store.Info) int {
	at := func(name string) time.Time {
		for _, s := range info.Sources {
			if s.Name == name {
				return s.Imported
			}
		}
		return time.Time{}
	}
	best := 0
	for i, f := range fans {
		if !at(f.Source.Name).Before(at(fans[best].Source.Name)) {
			best = i
		}
	}
	var others []string
	for i, f := range fans {
		if i != best {
			others = append(others, f.Source.Name)
		}
	}
	fans[best].Remarks = append(fans[best].Remarks, twiceListed(fans[best], others))
	return best
}

// twiceListed is the remark of a fan that several sources list.
func twiceListed(f *catalog.Fan, others []string) string {
	return fmt.Sprintf("%s also stands in %s; taken from %s, imported last", f.Name(), strings.Join(others, ", "), f.Source.Name)
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

// partNames writes fans as onePart reads them.
func partNames(fans []*catalog.Fan) []string {
	var names []string
	for _, f := range fans {
		names = append(names, partName(f))
	}
	return names
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
	return partNames(fans), err
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
