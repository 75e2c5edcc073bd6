// Package match finds the fan that makes a device quieter and still moves the
// air it needs. It estimates the device's resistance from what is known of the
// fitted fan, and ranks the fans of a catalogue by how loud each would be at
// the flow the device needs.
//
// The way of one candidate: its row is brought to one footing (Rated: full
// speed at nominal voltage, standard air, level at 1 m), checked against the
// seat (Check), crossed with the device's resistance at full speed and at the
// speed that just gives the needed flow (Evaluation), and put in order.
// Explain walks the same numbers one by one.
//
// Assumptions: volume flow is the same all along the air path; the fan laws
// hold between the speeds compared; levels are A-weighted, free field, of the
// fan alone. What hangs on a trade rule or on similar fans is marked as an
// estimate.
//
// # References
//
//   - [Eck] the affinity laws and the crossing of fan and system: any textbook
//     of fans; worked examples in [CC] Çengel & Cimbala, Fluid Mechanics,
//     chapter 14, see testdata/sources.
//   - [VDI2081] off-duty noise of fans; speed law 50·lg(n₂/n₁), see package
//     acoustics.
package match
