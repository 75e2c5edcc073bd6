package store

import "lowsone/catalog/parallel"

func inParallel(n int, job func(i int) error) error { return parallel.Do(n, job) }
