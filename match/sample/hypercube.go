package sample

import (
	"hash/fnv"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// hypercube draws n points of the unit cube with that many axes, each axis in n
// even layers. The seed and the name fix them.
func hypercube(n, axes int, seed uint64, name string) *mat.Dense {
	h := fnv.New64a()
	h.Write([]byte(name))
	out := mat.NewDense(n, axes, nil)
	samplemv.LatinHypercube{Q: distmv.NewUnitUniform(axes, nil), Src: rand.NewPCG(seed, h.Sum64())}.Sample(out)
	return out
}
