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
// On disk an index is a folder of shards, each an index of bleve's scorch
// engine, built in parallel. The engine's documents and readers are used
// directly and without scores: a mapping that only carries finished words
// through costs two thirds more time at building, and the order of hits is
// settled by how they match, not by how often a word stands somewhere.
// Nothing but the words and the row numbers is stored.
package index
