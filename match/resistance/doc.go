// Package resistance leads from a measurement on a device to its resistance to
// air, Δp = a·Q + b·Q², and to the working point of the fan that is fitted now.
//
// Every way takes the curve of the fitted fan already brought to the speed it
// had while the device was measured, and to the density of the air it met
// (the heat balance finds the density itself). SI float64 throughout: m³/s,
// Pa, W, K; temperatures in °C.
//
// Where one number is known the whole loss is put into b, the quadratic part:
// grilles, bends and jets. A device of narrow fins goes rather as Q^1.91; b
// calibrated at full flow is then 8 % low at 40 % of it and 19 % low at 10 %.
// Only two points or more tell a from b.
//
// How far each way is to be trusted is in the span LowQ … HighQ of an Estimate,
// meant as about 10 to 90 %: ±20 % of the flow for a heat balance, ±10 % for a
// measured flow, all flows the fan's curve allows for a measured pressure,
// ±0.15 of the free delivery for a share. Near free delivery, above 85 % of it,
// the resistance is nearly free: any smaller one would do as well, and the
// span ends at the free delivery.
//
// # References
//
//   - [Gammeter] C. Gammeter, F. Krismer, J. W. Kolar, on the weight of forced
//     convection heat sinks: the pressure drop of a heat sink with its duct,
//     against which a·Q + b·Q² and b·Q² alone are checked.
//   - [NNLS] C. L. Lawson, R. J. Hanson, Solving Least Squares Problems, 1974,
//     chapter 23: with two unknowns it is the best of four candidates.
//
// The spans, the default share and its plausible range are common practice,
// without a published source.
package resistance
