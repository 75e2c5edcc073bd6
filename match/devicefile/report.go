package devicefile

import (
	"cmp"
	"slices"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// State says how much is known of an item.
type State uint8

// The states.
const (
	Known    State = iota
	Assumed        // not recorded; Value says what is taken instead
	Missing        // not recorded, and nothing can be taken instead
	Doubtful       // recorded, and Why says what is wrong with it
)

var stateNames = [...]string{"known", "assumed", "missing", "doubtful"}

// String gives the state's name.
func (s State) String() string { return stateNames[s] }

// Weight says how much hangs on an open item.
type Weight uint8

// The weights, the heaviest first.
const (
	Decides  Weight = iota // a wrong fan, or a stopped device, may come of it
	Sharpens               // it narrows a band, or settles a check
	Rounds                 // good to have
)

// WholeDevice is the Path of items that belong to no path.
const WholeDevice = -1

// Item is one thing about a device that the file can say.
type Item struct {
	Path    int    // index into Device.Paths, or WholeDevice
	Key     string // where it stands below device or path, as "room: worst"
	State   State
	Value   string // what is known, or assumed; empty where nothing is
	Why     string // what the answer is good for, or what is wrong with it
	Weight  Weight
	Pitfall int // number of the pitfall it keeps people from; 0: of none
}

// Report is what is known of a device, in the order of the file; what is known
// of its fans by bands comes last.
type Report struct{ Items []Item }

// Open lists the items that are not known, those that most hangs on first.
func (r Report) Open() []Item {
	open := slices.DeleteFunc(slices.Clone(r.Items), func(i Item) bool { return i.State == Known })
	slices.SortStableFunc(open, func(a, b Item) int { return cmp.Compare(a.Weight, b.Weight) })
	return open
}

// ReportOf says of every item whether it is known, assumed, missing or doubtful,
// and what an answer would sharpen. Fans of the catalogue must have been looked
// up (File.Resolve).
func ReportOf(d *match.Device) Report { return reportOf(d, nil) }

func reportOf(d *match.Device, from map[*acoustics.Thirds]spectrum) Report {
	r := &reporter{path: WholeDevice, from: from}
	r.device(d)
	for i := range d.Paths {
		r.path = i
		p := &d.Paths[i]
		r.fan(p)
		r.seat(p, d)
		r.plug(p, len(d.Paths) > 1)
		r.surroundings(p)
		r.warmth(p, d)
		r.spots(p)
		r.loudness(p)
	}
	for i := range d.Paths { // last: least hangs on them
		r.path = i
		r.pathBands(&d.Paths[i])
	}
	return Report{r.items}
}

// reporter gathers items.
type reporter struct {
	path  int
	from  map[*acoustics.Thirds]spectrum // where spectra come from, as far as that is known
	items []Item
}

// open is what holds of an item that is not known.
type open struct {
	weight  Weight
	assumed string // what is taken instead; empty: nothing can be
	why     string
	pitfall int
}

// ask adds an item; without a value it is open.
func (r *reporter) ask(key, value string, o open) {
	state := Known
	if value == "" {
		value, state = o.assumed, Assumed
		if value == "" {
			state = Missing
		}
	}
	r.items = append(r.items, Item{r.path, key, state, value, o.why, o.weight, o.pitfall})
}

// doubt adds an item that is known and cannot be believed as it is.
func (r *reporter) doubt(key, value string, o open) {
	r.items = append(r.items, Item{r.path, key, Doubtful, value, o.why, o.weight, o.pitfall})
}

// written writes a known value; empty where there is none.
func written[T any](k quantity.Known[T], write func(T) string) string {
	if v, ok := k.Get(); ok {
		return write(v)
	}
	return ""
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

// named gives the name of a value of an enumeration; empty for the unknown.
func named[E ~uint8](names []string, v E) string {
	if v == 0 {
		return ""
	}
	return nameOf(names, v)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return number(float64(n)) + " " + many
}
