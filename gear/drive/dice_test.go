package drive_test

import "pgregory.net/rapid"

// rapidDice lets rapid draw, and shrink, drafts of jobs.
type rapidDice struct{ *rapid.T }

func (r rapidDice) Real(lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(r.T, "real") }
func (r rapidDice) Whole(lo, hi int) int        { return rapid.IntRange(lo, hi).Draw(r.T, "whole") }
