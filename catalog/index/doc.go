// Package index finds catalogue rows by words. It knows rows as a part number,
// other codes and texts, and gives back row numbers.
//
// Words are cut and folded here (fold.go, terms.go) and never by the search
// library, so that what is indexed and what is asked go through the same code:
// compatibility forms resolved, accents dropped, lower case, German umlauts
// found in both spellings (lüfter, luefter). Letters and digits make words;
// everything else separates them, so no character of a text is query syntax.
//
// A part number is one key without its separators, and also its pieces and its
// tails: AB-6025/12 is found by ab602512 (exact), by ab6025 (its beginning),
// by 6025/12 (a tail), by "AB 6025" and by 6025. Every word of a text must be
// found in a row, the last one also as the beginning of a word. Only where no
// row is found that way, words with one typing error are looked for.
//
// # How it is kept
//
// A parts list says the same few texts again and again: makers, connectors,
// bearings, descriptions. Each different text is a document of its own, indexed
// once by bleve's scorch engine; which rows have it is told by the catalogue's
// columns, which a search goes through from end to end ([Rows]). So an index of
// a hundred thousand rows holds some thousand documents. The engine's documents
// and readers are used directly and without scores: a mapping that only carries
// finished words through costs two thirds more time at building, and the order
// of hits is settled by how they match, not by how often a word stands
// somewhere.
//
// Part numbers and codes are different in every row. As documents they would
// take most of the time and space of an import, ten to twenty words each; they
// are kept as folded text and looked through ([KeyWriter]): 20 bytes a row, some
// milliseconds for a million rows.
package index
