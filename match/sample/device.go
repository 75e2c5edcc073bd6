package sample

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"lowsone/match"
	"lowsone/match/resistance"
)

// devices are the draws of the device that can be.
type devices struct {
	inputs  []input
	at      [][]float64 // of each draw kept, its place on every axis
	drawn   []*match.Drawn
	dropped int // draws that contradict themselves
}

// ContradictionError says that what was measured of the device does not agree
// with itself under any draw, or hardly any.
type ContradictionError struct {
	Kept, Of int
	Why      error  // of the first draw that cannot be; nil where two ways disagree
	Pair     string // the two ways
	Given    string // what the draws hang on, in words
}

// Error gives the reason.
func (e *ContradictionError) Error() string {
	if e.Pair != "" {
		return "the ways to the device's resistance contradict each other: " + e.Pair
	}
	return fmt.Sprintf("what was measured of the device contradicts itself in %d of %d draws, for example: %v", e.Of-e.Kept, e.Of, e.Why)
}

// Hint names the mend.
func (e *ContradictionError) Hint() string {
	if e.Pair != "" {
		return "measure one of the two again, or leave the less trusted one out"
	}
	return "check " + e.Given + "; --nominal takes everything as it was given"
}

// leastKept is the share of draws that must not contradict themselves.
const leastKept = 0.25

// tooFar is the doubt, as minus twice the log of the likelihood, from which on no
// draw is believed: three standard deviations.
const tooFar = 9

// Where draws are weighed, the way to the resistance is drawn evenly over so many
// standard deviations to either side, and weighed by its own distribution too:
// where another way draws it aside, few draws would lie there else. So many are
// drawn for each that is picked, so that few are picked twice.
const (
	widest      = 3.3
	oversampled = 8
)

// aside gives how many standard deviations the place u of the first axis, that of
// the way, stands for where draws are weighed.
func aside(u float64) float64 { return evenly(u, -widest, widest) }

// drawDevices draws the device n times.
func drawDevices(study *match.Study, n int, seed uint64) (*devices, error) {
	unknowns := study.Unknowns()
	d := &devices{inputs: deviceInputs(unknowns)}
	all, own := n, func(float64) float64 { return 0 }
	if unknowns.Others > 0 {
		all, own = oversampled*n, func(u float64) float64 { return aside(u) * aside(u) }
	}
	cube := hypercube(all, len(d.inputs), seed, "device")
	var why error
	var kept, whole float64
	for i := range all {
		whole += math.Exp(-own(cube.At(i, 0)) / 2)
		one, err := study.Draw(d.drawOf(cube, i, len(unknowns.Spots)))
		if err != nil {
			d.dropped++
			why = cmp.Or(why, err)
			continue
		}
		kept += math.Exp(-own(cube.At(i, 0)) / 2)
		d.drawn, d.at = append(d.drawn, one), append(d.at, mat.Row(nil, i, cube))
	}
	if kept < leastKept*whole {
		return nil, &ContradictionError{Kept: len(d.drawn), Of: all, Why: why, Given: given(&unknowns)}
	}
	if unknowns.Others > 0 {
		return d, d.weigh(study, n, own)
	}
	return d, nil
}

// given names what was measured of a device.
func given(u *match.Unknowns) string {
	said := map[resistance.Method]string{
		resistance.ByFlow: "the flow", resistance.ByPressure: "the pressure", resistance.ByHeat: "the heat and the air's rise",
		resistance.ByPoints: "the points of the resistance", resistance.ByShare: "the share of free delivery", resistance.ByGeometry: "the pieces of the path",
	}[u.Method]
	if len(u.Spots) > 0 {
		return said + ", the temperatures of the watched spots, and the fitted fan's label and speed"
	}
	return said + " and the fitted fan's label and speed"
}

func (d *devices) drawOf(cube *mat.Dense, i, spots int) match.Draw {
	x := match.Nominal(spots)
	for axis, in := range d.inputs {
		in.set(&x, cube.At(i, axis))
	}
	return x
}

// weigh picks n of the draws by how well all ways agree with each, in even steps
// of their summed weights. own gives the doubt of the first way itself by its place.
func (d *devices) weigh(study *match.Study, n int, own func(u float64) float64) error {
	doubts := make([]float64, len(d.drawn))
	for i, one := range d.drawn {
		doubts[i] = own(d.at[i][0]) + one.Doubt
	}
	least := slices.Min(doubts)
	if least > tooFar {
		return &ContradictionError{Kept: len(d.drawn), Of: len(d.drawn) + d.dropped, Pair: study.Apart()}
	}
	sum := 0.0
	for _, doubt := range doubts {
		sum += math.Exp((least - doubt) / 2)
	}
	drawn, at := make([]*match.Drawn, 0, n), make([][]float64, 0, n)
	upTo, i := math.Exp((least-doubts[0])/2), 0
	for k := range n {
		for step := (float64(k) + 0.5) / float64(n) * sum; upTo < step && i < len(doubts)-1; {
			i++
			upTo += math.Exp((least - doubts[i]) / 2)
		}
		drawn, at = append(drawn, d.drawn[i]), append(at, slices.Clone(d.at[i]))
	}
	d.dropped = int(math.Round(float64(d.dropped) * float64(n) / float64(len(d.drawn))))
	d.drawn, d.at = drawn, at
	d.spread()
	return nil
}

// spread puts the places on the first axis evenly from 0 to 1 again, in their
// order: what is picked lies close together there.
func (d *devices) spread() {
	order := make([]int, len(d.at))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(d.at[a][0], d.at[b][0]) })
	for rank, k := range order {
		d.at[k][0] = (float64(rank) + 0.5) / float64(len(order))
	}
}
