package curve

import "testing"

func TestRows(t *testing.T) {
	r := NewRows([]uint32{2, 2, 5}, []float64{0, 1, 0, 2, 3}, []float64{9, 0, 8, 7, 0})
	sameKnots(t, "row 0", r.Curve(0), [][2]float64{{0, 9}, {1, 0}})
	sameKnots(t, "row 2", r.Curve(2).Scaled(2, 3), [][2]float64{{0, 24}, {4, 21}, {6, 0}})
	for _, i := range []int{-1, 1, 3} {
		if c := r.Curve(i); c != (Curve{}) {
			t.Errorf("row %d = %+v, want the zero Curve", i, c)
		}
	}
}

// Ends that do not rise, or lie beyond the points, make no curve and no panic.
func TestRowsThatDoNotFit(t *testing.T) {
	for _, r := range []*Rows{
		NewRows([]uint32{4, 2, 9}, []float64{0, 1, 2}, []float64{2, 1, 0}),
		NewRows([]uint32{3, 1, 4}, []float64{0, 1, 2, 3}, []float64{2, 1}),
		NewRows(nil, nil, nil),
	} {
		for i := range 3 {
			if c := r.Curve(i); c != (Curve{}) {
				t.Errorf("%+v: row %d = %+v, want the zero Curve", r, i, c)
			}
		}
	}
}
