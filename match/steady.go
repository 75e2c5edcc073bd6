package match

import (
	"strconv"
	"strings"

	"lowsone/catalog/quantity"
)

// LongSoak is how long a load must have lasted for a spot to count as steady where
// no settling rule was tried: heat sinks in forced air take 30 to 60 minutes
// (common practice), a large case longer.
const LongSoak = 60 * quantity.Minute

// Steady says whether the spot was steady when it was found, by what is recorded:
// it kept a settling rule, or its load had lasted for LongSoak.
func (s *Spot) Steady() bool { return s.Settled != "" || s.Soak.Or(0) >= LongSoak }

// unsteady says of which spots it is not recorded that they were steady; empty
// where it is of all.
func unsteady(spots []Spot) string {
	var names []string
	for i := range spots {
		if !spots[i].Steady() {
			names = append(names, strconv.Quote(spots[i].Name))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return strings.Join(names, " and ") + " may still have been rising when found (neither a soak of " +
		Plain(float64(LongSoak/quantity.Minute)) + " min nor a settling rule is recorded): no limit is kept by it, more air may be needed"
}
