package main

import (
	"strings"
	"testing"
)

type faulty struct{}

func (faulty) run(*call) (int, error) { panic("an index too high") }

// TestAFaultOfOursEndsACommandInALine: nobody is shown the inside of the program.
func TestAFaultOfOursEndsACommandInALine(t *testing.T) {
	var said strings.Builder
	if exit := answer(faulty{}, &call{stderr: &said}); exit != exitCannot {
		t.Errorf("exit code %d", exit)
	}
	if !strings.Contains(said.String(), "an index too high") || strings.Count(said.String(), "\n") != 1 {
		t.Errorf("said %q", said.String())
	}
}
