package devicefile

import (
	"errors"
	"math"
	"strings"

	"lowsone/catalog/quantity"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

// builder makes the element of a piece in the air it was measured in.
type builder func(p *problems, s *sizes, in resistance.Air) (resistance.Element, error)

// errBranch stands for problems of a branch, which have been told.
var errBranch = errors.New("a branch has problems")

// pathOf builds the pieces of an air path.
func (p *problems) pathOf(pieces []piece, in resistance.Air) resistance.Path {
	var built resistance.Path
	for i := range pieces {
		piece := &pieces[i]
		if piece.build == nil {
			continue // what is wrong with it has been told
		}
		e, err := piece.build(p, &piece.sizes, in)
		switch {
		case err == nil:
			built = append(built, e)
		case !errors.Is(err, errBranch):
			p.refuse(piece.kind, piece.at, err)
		}
	}
	return built
}

// area gives the area of an opening in m²; an error names what it lacks.
func (o *opening) area() (float64, error) {
	if d := o.diameter; d.given {
		if o.height.given {
			return 0, &fault{"has a diameter and a height", "keep one of them"}
		}
		return math.Pi / 4 * float64(d.v*d.v), nil
	}
	if !o.width.given || !o.height.given {
		return 0, &fault{"lacks the size of its face", "add width and height, or diameter"}
	}
	return float64(o.width.v * o.height.v), nil
}

// called gives the name of a piece for messages.
func (s *sizes) called(kind string) string {
	return s.name.or(strings.ReplaceAll(kind, "_", " "))
}

// faced makes the builder of a piece that is told by its face.
func faced(kind string, make func(s *sizes, name string, area float64) (resistance.Element, error)) builder {
	return func(_ *problems, s *sizes, _ resistance.Air) (resistance.Element, error) {
		area, err := s.area()
		if err != nil {
			return resistance.Element{}, err
		}
		return make(s, s.called(kind), area)
	}
}

// stepped makes the builder of a piece that leads from one area to another.
func stepped(kind string, make func(name string, from, to float64) (resistance.Element, error)) builder {
	return func(_ *problems, s *sizes, _ resistance.Air) (resistance.Element, error) {
		from, err := s.from.area()
		if err != nil {
			return resistance.Element{}, err
		}
		to, err := s.to.area()
		if err != nil {
			return resistance.Element{}, err
		}
		return make(s.called(kind), from, to)
	}
}

func buildGrille(s *sizes, name string, area float64) (resistance.Element, error) {
	return resistance.Grille(name, area, s.open.v, s.edge.v)
}

func buildOutletGrille(s *sizes, name string, area float64) (resistance.Element, error) {
	return resistance.OutletGrille(name, area, s.open.v, s.edge.v)
}

func buildScreen(s *sizes, name string, area float64) (resistance.Element, error) {
	return resistance.Screen(name, area, s.open.v, float64(s.gap.or(resistance.UnknownGap)))
}

func buildGuard(s *sizes, name string, area float64) (resistance.Element, error) {
	return resistance.Guard(name, area, s.open.v)
}

func buildEntrance(_ *sizes, name string, area float64) (resistance.Element, error) {
	return resistance.Entrance(name, area)
}

func buildExit(_ *sizes, name string, area float64) (resistance.Element, error) {
	return resistance.Exit(name, area)
}

func buildLoss(s *sizes, name string, area float64) (resistance.Element, error) {
	return resistance.Coefficient(name, s.loss.v, area, "over its face", s.source.v)
}

// buildBend takes the width of the duct, or its diameter, as lying in the plane
// of the bend.
func buildBend(s *sizes, name string, area float64) (resistance.Element, error) {
	if !s.radius.given {
		return resistance.Mitre(name, area, s.degrees.v)
	}
	width := s.width.or(s.diameter.v)
	return resistance.Bend(name, area, s.degrees.v, float64(s.radius.v/width), resistance.SmoothFriction)
}

// buildFilter takes one point, or fits several.
func buildFilter(_ *problems, s *sizes, in resistance.Air) (resistance.Element, error) {
	name := s.called("filter")
	if len(s.points) > 0 {
		q, p := columnsOf(s.points)
		e, err := resistance.Points(curve.Curve{}, q, p)
		if err != nil {
			return resistance.Element{}, err
		}
		return resistance.Filter(name, e.System, in)
	}
	if !s.flow.given || !s.pressure.given {
		return resistance.Element{}, &fault{"lacks what it costs", "add flow and pressure of one point, or points"}
	}
	area, err := s.area()
	if err != nil {
		return resistance.Element{}, err
	}
	return resistance.FilterAt(name, area, float64(s.flow.v)/area, float64(s.pressure.v), in)
}

func buildFins(_ *problems, s *sizes, _ resistance.Air) (resistance.Element, error) {
	face, err := s.face.area()
	if err != nil {
		return resistance.Element{}, err
	}
	return resistance.Fins(s.called("fins"), resistance.FinStack{
		Channels: int(s.channels.v), Gap: float64(s.gap.v), Height: float64(s.height.v), Length: float64(s.length.v), Face: face,
	})
}

func buildBranches(p *problems, s *sizes, in resistance.Air) (resistance.Element, error) {
	var branches []resistance.Path
	for i := range s.branches {
		before := p.count()
		pieces := s.branches[i].pieces
		branch := p.pathOf(pieces, in)
		if p.count() > before || len(branch) < len(pieces) {
			return resistance.Element{}, errBranch
		}
		branches = append(branches, branch)
	}
	return resistance.Parallel(s.called("side_by_side"), branches...)
}

// columnsOf gives points as flows in m³/s and pressures in Pa.
func columnsOf(points []point) (q, p []float64) {
	for _, at := range points {
		q, p = append(q, float64(at.flow.v)), append(p, float64(at.pressure.v))
	}
	return q, p
}

// airOf is the air that flowed while the device was measured; at sea level,
// since that is where the altitude of the file is not.
func airOf(t quantity.Temperature) resistance.Air {
	const seaLevel = 101325 // Pa
	return resistance.AirAt(t.Celsius(), seaLevel)
}
