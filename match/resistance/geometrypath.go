package resistance

import (
	"errors"
	"fmt"
	"math"

	"lowsone/match/air"
	"lowsone/match/curve"
)

// Air is what flows along a path.
type Air struct {
	Density   float64 // kg/m³
	Viscosity float64 // Pa·s
}

// AirAt returns air of a temperature in °C and an absolute pressure in Pa.
func AirAt(celsius, pascal float64) Air {
	return Air{Density: air.Density(celsius, pascal), Viscosity: air.Viscosity(celsius)}
}

// StandardAir returns the air fan data are stated for: 1.2 kg/m³, 20 °C.
func StandardAir() Air {
	return Air{Density: air.StandardDensity, Viscosity: air.Viscosity(roomC)}
}

func (in Air) check() error {
	if err := positive("density of the air in kg/m³", in.Density); err != nil {
		return err
	}
	return positive("viscosity of the air in Pa·s", in.Viscosity)
}

// Element is one piece of an air path: what the air loses in it, and what that
// figure hangs on. Elements come from Grille, Fins and the like; the zero
// Element is none.
type Element struct {
	Name     string
	Area     float64 // m², of the reference velocity v = Q/Area; 0 where the loss has none
	Velocity string  // which velocity that is
	Valid    string  // where the figure holds
	Source   string

	law      law
	made     bool
	fouls    bool // dirt settles here
	assumed  string
	doubt    func(q float64, in Air) string // what is wrong with the figure at this flow, or ""
	branches []Path                         // of a Parallel
}

// law is a loss in Pa as a function of flow and air,
//
//	Δp = viscous·μ·Q + inertial·ρ·Q² + rest
//
// so that a = viscous·μ does not follow the density and b = inertial·ρ does.
type law struct {
	viscous  float64                         // 1/m³
	inertial float64                         // 1/m⁴
	rest     func(q float64, in Air) float64 // what is neither, nil where there is nothing
}

func (l law) loss(q float64, in Air) float64 {
	p := q * (l.viscous*in.Viscosity + l.inertial*in.Density*q)
	if l.rest != nil {
		p += l.rest(q, in)
	}
	return p
}

// times returns the law with its loss multiplied.
func (l law) times(by float64) law {
	scaled := law{viscous: by * l.viscous, inertial: by * l.inertial}
	if l.rest != nil {
		scaled.rest = func(q float64, in Air) float64 { return by * l.rest(q, in) }
	}
	return scaled
}

// onHead returns the law Δp = k·½ρ(Q/area)².
func onHead(k, area float64) law { return law{inertial: k / (2 * area * area)} }

// Loss returns the pressure in Pa that the flow q in m³/s, q ≥ 0, costs.
func (e Element) Loss(q float64, in Air) float64 { return e.law.loss(q, in) }

// Coefficient returns K = Δp/(½ρv²) at the flow q in m³/s, v = Q/Area. It is not
// ok where the element has no reference area or q is not above zero.
func (e Element) Coefficient(q float64, in Air) (k float64, ok bool) {
	head := in.Density / 2 * (q / e.Area) * (q / e.Area)
	if !(e.Area > 0 && head > 0) {
		return 0, false
	}
	return e.Loss(q, in) / head, true
}

// Path is a list of elements the same air passes one after the other: their
// losses add.
type Path []Element

// Loss returns the pressure in Pa that the flow q in m³/s, q ≥ 0, costs.
func (p Path) Loss(q float64, in Air) (sum float64) {
	for _, e := range p {
		sum += e.Loss(q, in)
	}
	return sum
}

// System returns the path as a·Q + b·Q² about the flow q in m³/s, q > 0. Where
// every element is of that form it is exact. Otherwise (channels of fins with
// their inlet length, screens of known gap, branches side by side) a and b are
// the least squares fit of relative pressure over 0.4 to 1.2 of q, multiplied to
// be exact at q. Over that range it misses channels of fins by under 2 %, screens
// by under 10 %.
func (p Path) System(q float64, in Air) curve.System {
	if s, ok := p.exact(in); ok {
		return s
	}
	const low, high, steps = 0.4, 1.2, 8
	var points []Point
	for i := range steps + 1 {
		x := q * (low + (high-low)*float64(i)/steps)
		points = append(points, Point{Q: x, P: p.Loss(x, in)})
	}
	s := fit(points)
	return times(s, p.Loss(q, in)/s.Loss(q))
}

// exact returns the system of a path whose every element is of the form
// a·Q + b·Q².
func (p Path) exact(in Air) (s curve.System, ok bool) {
	for _, e := range p {
		if e.law.rest != nil {
			return curve.System{}, false
		}
		s.A += e.law.viscous * in.Viscosity
		s.B += e.law.inertial * in.Density
	}
	return s, true
}

// DirtFactor is what dirt multiplies the loss of filters, screens and grilles
// with (common practice).
const DirtFactor = 1.5

// Dirty returns the path as it is before cleaning: filters, screens and grilles
// cost 1.5 times as much.
func (p Path) Dirty() Path {
	dirty := make(Path, len(p))
	for i, e := range p {
		switch {
		case len(e.branches) > 0:
			branches := make([]Path, len(e.branches))
			for k, b := range e.branches {
				branches[k] = b.Dirty()
			}
			e = sideBySide(e.Name, branches)
		case e.fouls:
			e.law = e.law.times(DirtFactor)
		}
		dirty[i] = e
	}
	return dirty
}

// Cost is what one element costs at a flow.
type Cost struct {
	Name     string
	Flow     float64  // m³/s through it
	Pressure float64  // Pa
	Share    float64  // of the loss of the path it lies in, 0 to 1
	Branches [][]Cost // of a Parallel, each with its own flow
}

// Costs returns what each element costs at the flow q in m³/s, in the order of
// the path.
func (p Path) Costs(q float64, in Air) []Cost {
	total := p.Loss(q, in)
	costs := make([]Cost, len(p))
	for i, e := range p {
		costs[i] = Cost{Name: e.Name, Flow: q, Pressure: e.Loss(q, in)}
		if total > 0 {
			costs[i].Share = costs[i].Pressure / total
		}
		for k, part := range flowsThrough(e.branches, q, in) {
			costs[i].Branches = append(costs[i].Branches, e.branches[k].Costs(part, in))
		}
	}
	return costs
}

// doubts returns what is wrong with the figures at the flow q.
func (p Path) doubts(q float64, in Air) (all []string) {
	for _, e := range p {
		if e.doubt != nil {
			if d := e.doubt(q, in); d != "" {
				all = append(all, d)
			}
		}
		for k, part := range flowsThrough(e.branches, q, in) {
			all = append(all, e.branches[k].doubts(part, in)...)
		}
	}
	return all
}

// assumed returns the defaults the elements were built with.
func (p Path) assumed() (all []string) {
	for _, e := range p {
		if e.assumed != "" {
			all = append(all, e.assumed)
		}
		for _, b := range e.branches {
			all = append(all, b.assumed()...)
		}
	}
	return all
}

// ErrNoPath reports a path without elements, or with one that was not built by
// any of the functions here.
var ErrNoPath = errors.New("no air path: it needs one element or more")

func (p Path) check() error {
	if len(p) == 0 {
		return ErrNoPath
	}
	for _, e := range p {
		if !e.made {
			return ErrNoPath
		}
	}
	return nil
}

// positive checks a number that must be above zero and finite.
func positive(what string, value float64) error {
	if !(value > 0) || math.IsInf(value, 0) {
		return &InputError{What: what, Value: value, Want: "above zero"}
	}
	return nil
}

// within checks a number that must lie in a closed range.
func within(what string, value, low, high float64) error {
	if !(value >= low && value <= high) {
		return &InputError{What: what, Value: value, Want: fmt.Sprintf("from %g to %g", low, high)}
	}
	return nil
}

// of names a number of an element, for messages.
func of(what, name string) string { return fmt.Sprintf("%s of %q", what, name) }
