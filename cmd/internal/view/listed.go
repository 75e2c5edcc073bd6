package view

import (
	"fmt"
	"strings"

	"lowsone/catalog"
)

// Listed is a fan that several sources list.
type Listed struct {
	Fan    *catalog.Fan // as the source that counts has it
	Others []string     // the other sources
}

type listedJSON struct {
	Part   string       `json:"part"`
	Maker  string       `json:"maker,omitempty"`
	Source string       `json:"source"`
	AlsoIn List[string] `json:"also_in"`
}

func listedOf(list []Listed) List[listedJSON] {
	var out List[listedJSON]
	for _, l := range list {
		out = append(out, listedJSON{l.Fan.Part, l.Fan.Maker, l.Fan.Source.Name, l.Others})
	}
	return out
}

// mostListed is how many of the fans that several sources list are named.
const mostListed = 3

// ListedWords says which fans several sources list, and how that is dealt with;
// empty where none does. Chosen is whether the person named the source.
func ListedWords(list []Listed, chosen bool) string {
	if len(list) == 0 {
		return ""
	}
	var names []string
	for _, l := range list[:min(len(list), mostListed)] {
		names = append(names, fmt.Sprintf("%s (%s; also in %s)", l.Fan.Name(), l.Fan.Source.Name, strings.Join(l.Others, ", ")))
	}
	if more := len(list) - mostListed; more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	counts := "of each the source imported last counts"
	if chosen {
		counts = "the source you name counts"
	}
	return fmt.Sprintf("listed by several sources, %s: %s; lowsone show PART says who says what", counts, strings.Join(names, ", "))
}
