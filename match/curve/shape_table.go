package curve

// The tables are fitted; TestShapesAreTheFit and TestFamiliesAreTheFit recompute
// them.

var (
	axialMean = shape([shapeKnots]float64{1.000, 0.931, 0.854, 0.779, 0.711, 0.648, 0.595, 0.551, 0.512, 0.480, 0.447, 0.410, 0.364, 0.298, 0.209, 0.105, 0.000})
	axialLow  = shape([shapeKnots]float64{1.000, 0.762, 0.522, 0.465, 0.415, 0.373, 0.339, 0.312, 0.286, 0.256, 0.214, 0.150, 0.117, 0.096, 0.068, 0.035, 0.000})
	axialHigh = shape([shapeKnots]float64{1.000, 1.060, 1.060, 1.060, 1.060, 1.008, 0.933, 0.868, 0.813, 0.764, 0.721, 0.683, 0.644, 0.600, 0.548, 0.317, 0.000})

	centrifugalMean = shape([shapeKnots]float64{1.000, 1.000, 1.000, 1.000, 0.993, 0.975, 0.946, 0.908, 0.862, 0.801, 0.729, 0.645, 0.544, 0.428, 0.298, 0.156, 0.000})
	centrifugalLow  = shape([shapeKnots]float64{1.000, 0.915, 0.825, 0.810, 0.798, 0.778, 0.746, 0.707, 0.655, 0.590, 0.514, 0.420, 0.313, 0.215, 0.155, 0.082, 0.000})
	centrifugalHigh = shape([shapeKnots]float64{1.000, 1.060, 1.060, 1.060, 1.060, 1.060, 1.060, 1.060, 1.060, 1.031, 0.962, 0.882, 0.791, 0.682, 0.558, 0.420, 0.000})
)

// The z are those of Student's distribution with one degree of freedom less than
// there are curves, n, times √(1+1/n), see [Prediction] in the package doc.
var (
	axialFamily = familyOf(&axialMean, spread{
		sd: [shapeKnots]float64{0.000, 0.036, 0.059, 0.074, 0.081, 0.082, 0.088, 0.111, 0.153, 0.198, 0.236, 0.253, 0.254, 0.265, 0.292, 0.338, 0.338},
		z:  [familyMiddle]float64{0.081, 0.163, 0.247, 0.331, 0.419, 0.509, 0.604, 0.705, 0.813, 0.930, 1.062, 1.212, 1.392, 1.622, 1.954, 2.634},
	})
	centrifugalFamily = familyOf(&centrifugalMean, spread{
		sd: [shapeKnots]float64{0.000, 0.005, 0.008, 0.011, 0.016, 0.023, 0.034, 0.046, 0.059, 0.076, 0.096, 0.114, 0.143, 0.181, 0.227, 0.271, 0.271},
		z:  [familyMiddle]float64{0.092, 0.185, 0.280, 0.378, 0.479, 0.586, 0.700, 0.823, 0.958, 1.110, 1.286, 1.498, 1.767, 2.140, 2.750, 4.339},
	})
)
