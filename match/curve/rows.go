package curve

// Rows are the curves of many fans, their points laid one after the other as
// the columns of a catalogue hold them. A curve of theirs allocates nothing,
// wherever it is kept. They are read only, and safe for concurrent use.
type Rows struct {
	end    []uint32
	points points
}

// NewRows returns the curves of which row i has the points end[i−1] to end[i]−1
// (from 0 for the first), q in m³/s and p in Pa, each without points or such as
// New has accepted before. It neither copies nor checks them: the caller must
// not change them while a curve of theirs is in use.
func NewRows(end []uint32, q, p []float64) *Rows {
	n := min(len(q), len(p))
	return &Rows{end: end, points: points{q: q[:n], p: p[:n]}}
}

// Curve returns the curve of row i, a view; the zero Curve where it has no
// points, and where there is no such row.
func (r *Rows) Curve(i int) Curve {
	if i < 0 || i >= len(r.end) {
		return Curve{}
	}
	s := span{to: r.end[i]}
	if i > 0 {
		s.from = r.end[i-1]
	}
	if s.from >= s.to || int(s.to) > len(r.points.q) {
		return Curve{}
	}
	return Curve{knots: &r.points, span: s, flow: 1, pressure: 1}
}
