package curve

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
)

// published is one curve of air_fan_curves.csv, normalised to its ends.
type published struct {
	id, kind, source string
	Curve
}

// publishedCurves reads them in the order of the file.
func publishedCurves(t testing.TB) []published {
	t.Helper()
	var all []published
	var q, p []float64
	rows := records(t, "air_fan_curves.csv")
	for i, r := range rows {
		q = append(q, r.number(t, "q_over_qmax", math.NaN()))
		p = append(p, r.number(t, "p_over_p0", math.NaN()))
		if i+1 < len(rows) && rows[i+1]["curve_id"] == r["curve_id"] {
			continue
		}
		all = append(all, published{r["curve_id"], r["kind"], r["source_key"], mustNew(t, q, p)})
		q, p = nil, nil
	}
	return all
}

// ofKind returns the curves whose kind begins with a word; "fan (type not
// stated…)" is of neither kind and is left to TestFanOfUnstatedKind.
func ofKind(all []published, kind string) []published {
	return slices.DeleteFunc(slices.Clone(all), func(c published) bool { return !strings.HasPrefix(c.kind, kind) })
}

// The fit. What matters of a shape is the flow at which it meets a device, so
// curves are averaged along devices: for each of many systems p = k·Q² the
// flows at which the curves cross it are averaged, all curves alike. That mean
// is made level where it would rise (a fan known by two ends has no dip, and a
// hump is not known), read off at 17 even flows and rounded to three decimals.
//
// The bounds lie a share of that flow to either side along the same systems,
// less towards the two ends, which are known, and no higher in pressure than
// the 6 % by which the peak of a fan may lie above its shut-off.
type fitted struct{ mean, low, high [shapeKnots]float64 }

const (
	nearShutOff = 0.15 // of Q₀: from there down the bounds run together
	nearFree    = 0.12 // and within that of the free delivery
	towardsFree = 0.6  // the upper bound goes at most so far of the way to Q₀
)

// fitShapes returns the shapes of curves with a bound of the share width.
func fitShapes(t testing.TB, curves []published, width float64) fitted {
	x, p := meanAlongSystems(t, curves)
	var low, high branch
	for i := range x {
		w := width * min(1, x[i]/nearShutOff, (1-x[i])/nearFree)
		down, up := x[i]*(1-w), min(x[i]*(1+w), x[i]+towardsFree*(1-x[i]))
		low.add(down, p[i]*square(down/x[i]))
		high.add(up, min(p[i]*square(up/x[i]), peakAboveShutOff))
	}
	return fitted{
		mean: readOff(t, x, p),
		low:  readOff(t, low.q, low.p),
		high: readOff(t, high.q, high.p),
	}
}

func square(x float64) float64 { return x * x }

// meanAlongSystems returns the mean curve between its two ends, never rising.
func meanAlongSystems(t testing.TB, curves []published) (x, p []float64) {
	t.Helper()
	height := 1.0
	for j := 200; j >= -200; j-- {
		k := math.Exp(float64(j) / 20)
		sum := 0.0
		for _, c := range curves {
			sum += meets(t, c.Curve, k)
		}
		mean := sum / float64(len(curves))
		height = min(height, k*mean*mean)
		x, p = append(x, mean), append(p, height)
	}
	return x, p
}

// meets returns the flow at which a curve crosses p = k·Q²; each of the
// published ones does so once.
func meets(t testing.TB, c Curve, k float64) float64 {
	t.Helper()
	x, n, err := Operate(c, System{B: k})
	if err != nil || n != 1 {
		t.Fatalf("k = %g: %d crossings, %v", k, n, err)
	}
	return x.Q
}

// readOff returns the pressures at the even flows of a shape, with its ends.
func readOff(t testing.TB, q, p []float64) (knots [shapeKnots]float64) {
	t.Helper()
	c := mustNew(t, append(append([]float64{0}, q...), 1), append(append([]float64{1}, p...), 0))
	for i := range knots {
		y, _ := c.At(float64(i) / (shapeKnots - 1))
		knots[i] = math.Round(y*1000) / 1000
	}
	return knots
}

// kinds are the two kinds with the width of their bounds.
var kinds = []struct {
	name   string
	width  float64
	shapes Shapes
}{
	{"axial", 0.20, Axial()},
	{"centrifugal", 0.10, Centrifugal()},
}

// Pin: the committed tables are what the fit gives.
func TestShapesAreTheFit(t *testing.T) {
	for _, kind := range kinds {
		want := fitShapes(t, ofKind(publishedCurves(t), kind.name), kind.width)
		for _, s := range []struct {
			name string
			got  *Shape
			want [shapeKnots]float64
		}{
			{"Mean", kind.shapes.Mean, want.mean},
			{"Low", kind.shapes.Low, want.low},
			{"High", kind.shapes.High, want.high},
		} {
			if !slices.Equal(s.got.p, s.want[:]) {
				t.Errorf("%s %s:\n got %.3f\nwant %.3f (the fit)", kind.name, s.name, s.got.p, s.want)
			}
		}
	}
}

// leaveOneOut are the errors that the package doc states: the largest relative
// error in flow of the mean shape of the others of a kind, over quadratic
// systems through the points of the curve at 15 to 95 % of its free delivery.
// They are pins; what is required is ±20 % and ±10 %.
var leaveOneOut = map[string]string{
	"AX-A": "+14.3 %", "AX-B": "+16.2 %", "AX-D": "−9.3 %", "AX-E": "+12.4 %",
	"AX-G": "+7.8 %", "AX-H": "−4.8 %", "AX-J": "−11.1 %", "AX-L": "−10.3 %",
	"AX-M": "−10.1 %", "AX-O": "−6.3 %", "AX-Q": "−7.2 %",
	"CF-1": "+6.9 %", "CF-3": "+3.1 %", "CF-6": "−3.5 %", "CF-7": "−4.3 %",
}

func TestShapesLeaveOneOut(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, kind := range kinds {
		curves := ofKind(publishedCurves(t), kind.name)
		for i, c := range curves {
			others := without(curves, i)
			mean := shape(fitShapes(t, others, kind.width).mean)
			worst := worstError(t, TwoEnded(&mean, 1, 1), c.Curve)
			if math.Abs(worst) > kind.width {
				t.Errorf("%s from the others: %+.1f %% in flow, want within ±%.0f %%", c.id, 100*worst, 100*kind.width)
			}
			stated := percent(worst)
			if stated != leaveOneOut[c.id] {
				t.Errorf("%s from the others: %s in flow, want %s (pin)", c.id, stated, leaveOneOut[c.id])
			}
			if !strings.Contains(string(doc), c.id+" "+stated) {
				t.Errorf("the package doc does not state %q", c.id+" "+stated)
			}
			seen++
		}
	}
	if seen != len(leaveOneOut) {
		t.Errorf("saw %d curves, want %d", seen, len(leaveOneOut))
	}
}

// percent writes a share with its sign.
func percent(share float64) string {
	return strings.Replace(fmt.Sprintf("%+.1f %%", 100*share), "-", "−", 1)
}

// worstError returns the relative error of the largest size in flow of a shape
// against a curve.
func worstError(t testing.TB, shape, c Curve) (worst float64) {
	t.Helper()
	for i := 3; i <= 19; i++ {
		q := float64(i) / 20
		p, _ := c.At(q)
		if e := meets(t, shape, p/(q*q))/q - 1; math.Abs(e) > math.Abs(worst) {
			worst = e
		}
	}
	return worst
}

// The bounds hold every published curve of their kind along every system, and
// fitted without it they still do, but for half a per cent of Q₀.
func TestShapesBoundTheCurves(t *testing.T) {
	for _, kind := range kinds {
		curves := ofKind(publishedCurves(t), kind.name)
		for i, c := range curves {
			if out := outside(t, c.Curve, kind.shapes.Low, kind.shapes.High); out > 0 {
				t.Errorf("%s lies outside its bounds by %.4f of Q₀", c.id, out)
			}
			others := fitShapes(t, without(curves, i), kind.width)
			low, high := shape(others.low), shape(others.high)
			if out := outside(t, c.Curve, &low, &high); out > 0.005 {
				t.Errorf("%s lies outside the bounds of the others by %.4f of Q₀", c.id, out)
			}
		}
	}
}

// outside returns by how much flow, as a share of Q₀, a curve lies outside two
// shapes along quadratic systems, at worst.
func outside(t testing.TB, c Curve, low, high *Shape) (worst float64) {
	t.Helper()
	for j := -100; j <= 100; j++ {
		k := math.Exp(float64(j) / 20)
		x := meets(t, c, k)
		worst = max(worst, meets(t, TwoEnded(low, 1, 1), k)-x, x-meets(t, TwoEnded(high, 1, 1), k))
	}
	return worst
}

// A fan whose kind its source does not state was left out of the fit. Its curve
// is a check: it is that of a centrifugal fan, and shows what a wrong kind does.
func TestFanOfUnstatedKind(t *testing.T) {
	all := ofKind(publishedCurves(t), "fan (type not stated")
	if len(all) != 1 {
		t.Fatalf("found %d such fans", len(all))
	}
	c := all[0].Curve
	if e := worstError(t, TwoEnded(Centrifugal().Mean, 1, 1), c); math.Abs(e) > 0.10 {
		t.Errorf("by the centrifugal shape: %s in flow, want within ±10 %%", percent(e))
	}
	if e := worstError(t, TwoEnded(Axial().Mean, 1, 1), c); e > -0.15 {
		t.Errorf("by the axial shape: %s in flow, want −15 %% or worse", percent(e))
	}
}

func TestShapesAreInOrder(t *testing.T) {
	for _, kind := range allKinds {
		mean, low, high := kind.shapes.Mean, kind.shapes.Low, kind.shapes.High
		for i := range shapeKnots {
			if i > 0 && (mean.p[i] > mean.p[i-1] || low.p[i] > low.p[i-1]) {
				t.Errorf("%s: Mean or Low rises at knot %d", kind.name, i)
			}
			if low.p[i] > mean.p[i] || mean.p[i] > high.p[i] || high.p[i] > peakAboveShutOff {
				t.Errorf("%s: Low %g, Mean %g, High %g at knot %d", kind.name, low.p[i], mean.p[i], high.p[i], i)
			}
		}
		for _, s := range []*Shape{mean, low, high} {
			c := TwoEnded(s, 0.02, 50)
			if p, ok := c.ShutOff(); p != 50 || !ok {
				t.Errorf("%s: ShutOff() = %g, %t", kind.name, p, ok)
			}
			if q, ok := c.FreeDelivery(); q != 0.02 || !ok {
				t.Errorf("%s: FreeDelivery() = %g, %t", kind.name, q, ok)
			}
			if d, ok := c.Dip(); ok {
				t.Errorf("%s: a dip at %+v", kind.name, d)
			}
		}
	}
}

// A mixed-flow fan lies between the two kinds, knot by knot.
func TestMixedShapesLieBetween(t *testing.T) {
	axial, centrifugal, mixed := Axial(), Centrifugal(), Mixed()
	if mixed.Low != axial.Low || mixed.High != centrifugal.High {
		t.Error("the bounds of mixed-flow fans are not the outer ones of the two kinds")
	}
	for i := range shapeKnots {
		want := (axial.Mean.p[i] + centrifugal.Mean.p[i]) / 2
		check(t, fmt.Sprintf("Mixed().Mean at knot %d", i), mixed.Mean.p[i], want, 1e-12, "half-way, by definition")
	}
}

func TestTwoEndedWithoutEnds(t *testing.T) {
	for _, ends := range [][2]float64{{0, 50}, {0.02, 0}, {-0.02, 50}, {math.NaN(), 50}, {0.02, math.Inf(1)}} {
		if c := TwoEnded(Axial().Mean, ends[0], ends[1]); c.Len() != 0 {
			t.Errorf("TwoEnded(Mean, %g, %g) has %d knots, want none", ends[0], ends[1], c.Len())
		}
	}
}
