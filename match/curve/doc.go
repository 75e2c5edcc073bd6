// Package curve holds the pressure–flow curves of fans and answers where a fan
// meets a device's resistance, at full speed, at a held speed, or at the speed
// that moves a needed flow.
//
// Everything is plain SI float64 (m³/s, Pa), pure and safe for concurrent use.
// A curve is straight lines between points, and every answer is had in closed
// form, segment by segment. Outside its points there is no curve: a working
// point there is an *OutsideError with both numbers, never an extrapolation.
// Even a full published curve is known to about ±10 % only.
//
// # Dips
//
// A stall dip, where the pressure falls and recovers with growing flow, is kept
// and never smoothed. A recovery counts as one above 1 % of the largest
// pressure; less is the noise of reading points off a sheet. A curve that
// rises from its first point to one hump has no dip.
//
// # Shapes
//
// Of many fans only the two ends are known. Shapes are normalised curves
// between them, fitted to [Published]: the flows at which the curves of a kind
// meet one quadratic system are averaged, system by system, all curves alike.
// Low and High bound a kind by ±20 % in flow for axial fans and ±10 % for
// centrifugal ones, less near the two ends, which are known. They hold all 11
// axial and all 4 centrifugal curves of the reference, and each of them within
// half a per cent of Q₀ when fitted without it.
//
// How far Mean is off in flow, at worst, on a fan it was not fitted to (fitted
// to the others of its kind; quadratic systems through 15 to 95 % of Q₀):
//
//	axial        AX-A +14.3 %  AX-B +16.2 %  AX-D −9.3 %   AX-E +12.4 %
//	             AX-G +7.8 %   AX-H −4.8 %   AX-J −11.1 %  AX-L −10.3 %
//	             AX-M −10.1 %  AX-O −6.3 %   AX-Q −7.2 %
//	centrifugal  CF-1 +6.9 %   CF-3 +3.1 %   CF-6 −3.5 %   CF-7 −4.3 %
//
// None falls outside ±20 % and ±10 %, so none was left out of the fit, neither
// CF-1 and CF-3, large fans tabulated at few points, nor CF-6 and
// CF-7, small fans of high speed: they are the largest and the smallest size
// known here, and yet within 7 % of each other's mean. No small fan with
// forward-curved blades is among them. A fan whose kind is not stated was left
// out; the centrifugal shape fits it within 10 %, the axial one is 15 % and
// more too low: the kind matters more than any formula. Of mixed-flow fans no
// curve is at hand; theirs are assumed between the two kinds.
//
// # Families
//
// Between its ends a fan is drawn by [Shapes.At] from a family of shapes, fitted
// to the same curves in what matters, the crossing x = Q/Q₀ with quadratic
// systems: along each, ln(x/(1−x)) is spread around Mean as one more fan is
// around n known ones [Prediction]. Assumed, and not to be told from so few
// curves: that law; that the curves stand for all fans of their kind, one as
// good as another; and that a fan keeps its rank from system to system, where
// real curves cross. No member dips, a stall not being known from two ends.
//
// The widest 10–90 % band in flow is axial −12.4 % to +11.8 %, centrifugal
// −6.8 % to +6.2 %, mixed-flow −17.8 % to +13.7 %. Fitted without a curve, it
// holds that curve at this share of the systems through its points at 15 to
// 95 % of Q₀:
//
//	axial        AX-A 57 %   AX-B 15 %   AX-D 75 %   AX-E 100 %
//	             AX-G 100 %  AX-H 100 %  AX-J 52 %   AX-L 84 %
//	             AX-M 100 %  AX-O 100 %  AX-Q 98 %
//	centrifugal  CF-1 58 %   CF-3 100 %  CF-6 100 %  CF-7 73 %
//
// In sum: all axial 80 %, all centrifugal 83 %, both kinds 81 %. The systems of
// one curve go together: these are 15 fans, not hundreds of cases. And the
// axial curves come from two sources, unlike each other by some 15 % in flow
// half-way. Of these the band holds source A by the others 25 %, source B by the
// others 44 %: an axial fan unlike both is held less often than the band says.
// The fan whose kind is not stated lies in the centrifugal band at 81 %.
//
// The ends themselves are no better known than other published points, see
// [FlowTolerance], and a fan's speed no better than [SpeedTolerance].
//
// # References
//
//   - [Affinity] The fan and pump affinity laws, e.g. R. W. Fox, A. T.
//     McDonald, Introduction to Fluid Mechanics, chapter 10: Q ∝ N·D³,
//     p ∝ ρ·N²·D².
//   - [Prediction] After n draws one more lies, with probability u, below their
//     mean + t(u)·s·√(1+1/n), Student's t with n−1 degrees of freedom, s their
//     standard deviation: the prediction interval, e.g. D. C. Montgomery, G. C.
//     Runger, Applied Statistics and Probability for Engineers, chapter 8 (from
//     MEMORY).
//   - [Published] The curves of testdata/sources/air_fan_curves.csv, by source:
//     A 40 digitised data sheets in an open heat-sink toolbox; B polynomials in
//     an open heat-sink research code; C Çengel & Cimbala, Fluid Mechanics,
//     table 14-1; D Fox & McDonald, example 10.11; F a tool suite funded by the
//     US Department of Energy; J AIAA-2011-5222.
package curve
