// Package store keeps the catalogue on disk and answers from it: records by
// row number, columns for filtering and ranking, rows by part, and rows by
// words.
//
// A catalogue is a folder of generations. An import builds a new generation
// beside the live one and then swaps the small file CURRENT by rename, so that
// the catalogue answers as the old or as the new one, always whole. Readers
// never write and never wait for an import.
package store
