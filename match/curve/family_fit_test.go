package curve

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// The fit of a family. Along the system through each inner knot of the mean
// shape the curves of the kind are taken as draws of ln(x/(1−x)) around the
// shape, x their crossing. One more fan of the kind then lies, with the
// probability u, at most t(u)·sd·√(1+1/n) above it, t with n−1 degrees of
// freedom [Prediction]. Both are rounded like the shapes.
func fitSpread(t testing.TB, curves []published, mean *Shape) (s spread) {
	t.Helper()
	n := float64(len(curves))
	for i := 1; i < shapeKnots-1; i++ {
		x := mean.q[i]
		sum := 0.0
		for _, c := range curves {
			sum += square(logit(meets(t, c.Curve, mean.p[i]/square(x))) - logit(x))
		}
		s.sd[i] = math.Round(math.Sqrt(sum/(n-1))*1000) / 1000
	}
	s.sd[shapeKnots-1] = s.sd[shapeKnots-2]
	for i := range s.z {
		s.z[i] = math.Round(1000*oneMore(n, shareOf(familyMiddle+1+i))) / 1000
	}
	return s
}

// shareOf returns the share in the middle of those a member stands for.
func shareOf(member int) float64 { return (float64(member) + 0.5) / familySize }

func logit(x float64) float64 { return math.Log(x / (1 - x)) }

// oneMore returns how many standard deviations of n draws above their mean the
// bound is that one more draw stays below with the probability u.
func oneMore(n, u float64) float64 {
	return distuv.StudentsT{Sigma: 1, Nu: n - 1}.Quantile(u) * math.Sqrt(1+1/n)
}

// fitFamily returns the shapes of a kind with these curves and no others.
func fitFamily(t testing.TB, curves []published) Shapes {
	t.Helper()
	mean := shape(fitShapes(t, curves, 0).mean)
	return Shapes{Mean: &mean, family: familyOf(&mean, fitSpread(t, curves, &mean))}
}

// Source: the printed tables of Student's distribution, t at 0.90 (MEMORY).
func TestStudentsQuantile(t *testing.T) {
	for _, row := range []struct{ freedom, want float64 }{{2, 1.886}, {3, 1.638}, {9, 1.383}, {10, 1.372}} {
		n := row.freedom + 1
		got := oneMore(n, 0.90) / math.Sqrt(1+1/n)
		check(t, fmt.Sprintf("t(0.90) with %g degrees of freedom", row.freedom), got, row.want, 0.0005, "printed tables, MEMORY")
	}
}

func sameShape(a, b Shape) bool { return slices.Equal(a.q, b.q) && slices.Equal(a.p, b.p) }

// Pin: the committed tables are what the fit gives.
func TestFamiliesAreTheFit(t *testing.T) {
	for _, kind := range kinds {
		curves := ofKind(publishedCurves(t), kind.name)
		want := fitSpread(t, curves, kind.shapes.Mean)
		if fit := familyOf(kind.shapes.Mean, want); !slices.EqualFunc(kind.shapes.family[:], fit[:], sameShape) {
			t.Errorf("%s: the committed family is not the fit\n sd %.3f\n z %.3f", kind.name, want.sd, want.z)
		}
		if !sameShape(*kind.shapes.At(0.5), *kind.shapes.Mean) {
			t.Errorf("%s: At(0.5) is not Mean", kind.name)
		}
	}
}

// Every member crosses a system where the quantile of the fit lies, worked out
// from the curves for that system alone; straight lines between 17 knots and
// three decimals cost up to 0.01 of Q₀, less towards the middle.
func TestMembersLieAtTheirQuantile(t *testing.T) {
	for _, kind := range kinds {
		curves := ofKind(publishedCurves(t), kind.name)
		n := float64(len(curves))
		for q := 0.15; q <= 0.95; q += 0.05 {
			p, _ := TwoEnded(kind.shapes.Mean, 1, 1).At(q)
			k, sum := p/square(q), 0.0
			for _, c := range curves {
				sum += square(logit(meets(t, c.Curve, k)) - logit(q))
			}
			for i := range familySize {
				x := logistic(logit(q) + oneMore(n, shareOf(i))*math.Sqrt(sum/(n-1)))
				want := min(x, math.Sqrt(peakAboveShutOff/k))
				got := meets(t, TwoEnded(kind.shapes.At(shareOf(i)), 1, 1), k)
				check(t, fmt.Sprintf("%s, share %.3f, at %.2f of Q₀ of the mean: flow", kind.name, shareOf(i), q), got, want, 0.01, "the fit")
			}
		}
	}
}

func logistic(y float64) float64 { return 1 / (1 + math.Exp(-y)) }

// without returns the curves but one.
func without(curves []published, i int) []published {
	return slices.Delete(slices.Clone(curves), i, i+1)
}
