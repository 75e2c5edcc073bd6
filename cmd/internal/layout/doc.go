// Package layout guards the shape of the tree by its tests: which package may
// import which, where each library is at home, what kernels and the parts
// below main must not touch, what stands at the top level, and how long a file
// gets. It holds no code.
//
// A new package, library or top-level name fails here first. Give it its row in
// the tables of layout_test.go, in the same commit, with the reason where the
// table asks for one.
package layout
