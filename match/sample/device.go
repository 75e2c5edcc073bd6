package sample

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"lowsone/match"
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
	Why      error // of a draw that cannot be; nil where two ways disagree
	Pair     string
}

// Error gives the reason.
func (e *ContradictionError) Error() string {
	if e.Pair != "" {
		return "the ways to the device's resistance contradict each other: " + e.Pair
	}
	return fmt.Sprintf("what was measured of the device contradicts itself in %d of %d draws: %v", e.Of-e.Kept, e.Of, e.Why)
}

// Hint names the mend.
func (e *ContradictionError) Hint() string {
	if e.Pair != "" {
		return "measure one of the two again, or leave the less trusted one out"
	}
	return "check the heat, the air's rise and the fitted fan's label and speed; --nominal takes everything as it was given"
}

// leastKept is the share of draws that must not contradict themselves.
const leastKept = 0.25

// tooFar is the doubt, as minus twice the log of the likelihood, from which on no
// draw is believed: three standard deviations.
const tooFar = 9

// oversampled is how many draws one is picked from where they are weighed, so
// that few are picked twice.
const oversampled = 4

// drawDevices draws the device n times.
func drawDevices(study *match.Study, n int, seed uint64) (*devices, error) {
	unknowns := study.Unknowns()
	d := &devices{inputs: deviceInputs(unknowns)}
	all := n
	if unknowns.Others > 0 {
		all *= oversampled
	}
	cube := hypercube(all, len(d.inputs), seed, "device")
	var why error
	for i := range all {
		one, err := study.Draw(d.drawOf(cube, i, len(unknowns.Spots)))
		if err != nil {
			d.dropped++
			why = err
			continue
		}
		d.drawn, d.at = append(d.drawn, one), append(d.at, mat.Row(nil, i, cube))
	}
	if float64(len(d.drawn)) < leastKept*float64(all) {
		return nil, &ContradictionError{Kept: len(d.drawn), Of: all, Why: why}
	}
	if unknowns.Others > 0 {
		return d, d.weigh(study, n)
	}
	return d, nil
}

func (d *devices) drawOf(cube *mat.Dense, i, spots int) match.Draw {
	x := match.Nominal(spots)
	for axis, in := range d.inputs {
		in.set(&x, cube.At(i, axis))
	}
	return x
}

// weigh picks n of the draws by how well the other ways agree with each, in even
// steps of their summed weights.
func (d *devices) weigh(study *match.Study, n int) error {
	least, sum := math.Inf(1), 0.0
	for _, one := range d.drawn {
		least = math.Min(least, one.Doubt)
	}
	if least > tooFar {
		return &ContradictionError{Kept: len(d.drawn), Of: len(d.drawn) + d.dropped, Pair: study.Apart()}
	}
	weights := make([]float64, len(d.drawn))
	for i, one := range d.drawn {
		weights[i] = math.Exp((least - one.Doubt) / 2)
		sum += weights[i]
	}
	drawn, at := make([]*match.Drawn, 0, n), make([][]float64, 0, n)
	upTo, i := weights[0], 0
	for k := range n {
		for step := (float64(k) + 0.5) / float64(n) * sum; upTo < step && i < len(weights)-1; {
			i++
			upTo += weights[i]
		}
		drawn, at = append(drawn, d.drawn[i]), append(at, d.at[i])
	}
	d.drawn, d.at = drawn, at
	return nil
}
