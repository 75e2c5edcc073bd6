package match

// Explanation walks one fan from its label to its place, with the numbers of
// the ranking itself.
type Explanation struct {
	Row     int
	Steps   []Step
	Outcome string // "ranked 3 of 17", "left out: frame", "left out: too weak"
	Against string // what puts it behind the first, or before the second; empty where that was not asked
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

	About Topic  // what the result is of, for a band to be told with it
	Band  string // the range that holds 10 to 90 % of what it may be; empty where that was not asked
}

// Topic is a quantity that steps tell.
type Topic uint8

// The topics.
const (
	TopicNone       Topic = iota
	TopicPresent          // the present flow
	TopicResistance       // what the device takes at the needed flow
	TopicNeed             // the needed flow
	TopicFull             // the flow at full speed
	TopicSpeed            // the speed that just gives the need
	TopicLevel            // the level there
	TopicHeat             // the temperature of a watched spot, in their order
	TopicOrder            // the place
)
