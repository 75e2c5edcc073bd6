// Package resistance leads from a measurement on a device, or from drawings of
// its air path, to its resistance to air, Δp = a·Q + b·Q², and to the working
// point of the fan that is fitted now.
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
// ±0.15 of the free delivery for a share, ±30 % of the loss for a geometry. Near
// free delivery, above 85 % of it, the resistance is nearly free: any smaller one
// would do as well, and the span ends at the free delivery.
//
// # Geometry
//
// A Path is a list of pieces the air passes one after the other; branches side
// by side are one piece of it (Parallel). Each piece says on which velocity its
// loss coefficient is, where it holds and where it comes from; Path.Costs says
// which of them costs how much, and Path.Dirty what dirt adds. Losses are added
// as if the pieces were far apart; close together they may cost more or less, part
// of the ±30 %. Total pressure is counted: a path that starts in still air and
// ends in the open holds one Exit or OutletGrille, but no exit of the fan itself,
// which its static pressure has behind it.
//
// Between the points of the tables of grilles the share of the face that a jet
// fills is interpolated, of wire screens the factor β. Fins are taken as laminar
// all along, with what the forming profile costs; above a Reynolds number of 2300
// that is warned of.
//
// # Comparison
//
// Compare puts several ways beside each other and names the one to use.
//
// # References
//
//   - [Blevins] R. D. Blevins, Applied Fluid Dynamics Handbook, 1984: grilles,
//     perforated plates, screens; the tables as an open library has them.
//   - [Gammeter] C. Gammeter, F. Krismer, J. W. Kolar, on the weight of forced
//     convection heat sinks: the pressure drop of a heat sink with its duct,
//     against which a·Q + b·Q² and b·Q² alone are checked.
//   - [NNLS] C. L. Lawson, R. J. Hanson, Solving Least Squares Problems, 1974,
//     chapter 23: with two unknowns it is the best of four candidates.
//   - [Rennels] D. C. Rennels, H. M. Hudson, Pipe Flow, 2012: contraction, bends;
//     the formulas as an open library has them.
//   - [Shah] R. K. Shah, A correlation for laminar hydrodynamic entry length
//     solutions for circular and noncircular ducts, J. Fluids Eng. 100 (1978)
//     177–179: ±2.4 %; the formula and its constants for plates and for
//     rectangular ducts as open code has them.
//   - [ShahLondon] R. K. Shah, A. L. London, Laminar Flow Forced Convection in
//     Ducts, 1978: f·Re of rectangular channels.
//   - [Webb] R. L. Webb, Entrance and exit losses for developing flow in parallel
//     plate channels, Heat Transfer Eng. 27 (2006): the curves of Kays and London
//     are for a profile formed at the exit.
//
// The spans, the default share and its plausible range, dirt, the order of trust
// and the single point of a filter are common practice, without a published
// source.
package resistance
