// Package intake carries out one import: it reads a parts list, tells new fans
// from repeated ones, keeps account of every row, writes rejected rows to a
// file of their own, and puts the fans into the catalogue as a new generation.
//
// Every data row of the file is imported, rejected or repeated; none is
// dropped. Rejected rows are kept whole. The old catalogue answers until the
// new one is complete, and stays where nothing usable was found.
package intake
