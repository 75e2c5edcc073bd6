// Package thermal computes how hot a fan-cooled part gets when its air flow,
// its heat or the room changes, how much air it needs, what hotter costs in
// life, and where a temperature log will end.
//
// # Flow and temperature
//
// The rise of a watched spot over the air that enters the device is taken apart
// into three shares of what was found at the present flow:
//
//	ΔT(μ) = ΔT₁·(P/P₁)·[f_air/μ + f_film/μ^m + f_solid],   f_air + f_film + f_solid = 1
//
// with μ = ṁ/ṁ₁ the mass flow over the present one, and P/P₁ the heat over the
// heat then: the air itself warms up as 1/μ, the film at the surface goes as
// 1/μ^m, what lies in the solid (paste, washers, the way into the part) does not
// see the flow. Shares nobody measured are not guessed but spanned: every corner
// of what is possible is evaluated. Mass flow is what carries heat: at altitude
// or in hot air the same mass is more volume (FlowAtFan).
//
// Temperatures are steady, in °C; heat is in W, flow in kg/s or m³/s, time in s.
// Radiation, natural convection, and heat that leaves through the case are
// inside the shares as they were found, so far below the present flow the law
// says too much heat.
//
// # Temperature logs
//
// A log of one probe predicts its end only where it keeps conditions that a log
// cut too early fails: see Predict. The method is a least-squares fit of the
// first-order response, linear in its end and its amplitude, searched over its
// time constant, with readings that stand off weighted down.
//
// # References
//
//   - [MEH] Mechanical Engineers' Handbook, vol. 4, p. 395, eqs. (55), (56):
//     film on a flat plate, exponent 0.5 laminar and 0.8 turbulent.
//   - [Golub] G. Golub, V. Pereyra: Separable nonlinear least squares, Inverse
//     Problems 19 (2003) R1–R26: the time constant alone is searched. From MEMORY.
//   - [Huber] P. J. Huber, Robust Statistics, 1981: the weights, with 1.345 for
//     95 % efficiency. From MEMORY.
//   - [Rules] settling rules of safety and performance standards as quoted in
//     public mailing lists; each Rule names its own.
//   - [CapLife] technical notes of a maker of power converters: capacitors, and
//     how times at several temperatures add up.
//   - [FanLife] support page of a fan maker: bearings.
//
// The spans of unknown shares and the margin are common practice, without a
// published source.
package thermal
