package match

// Explanation walks one fan from its label to its place, with the numbers of
// the ranking itself.
type Explanation struct {
	Row     int
	Steps   []Step
	Outcome string // "ranked 3 of 17", "left out: frame", "left out: too weak"
}

// Step is one line of thought: what, by which formula, with which numbers, and
// what came out. Estimate marks a result that no sheet gave.
type Step struct {
	Title    string
	Formula  string // plain text; empty where nothing was computed
	Numbers  string // the formula with the numbers in
	Result   string // with its unit
	Source   string // where formula or value comes from
	Estimate bool
}
