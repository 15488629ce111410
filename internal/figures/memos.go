package figures

import (
	"time"

	q "gylebook/internal/quantity"
)

// memos are the estimates that several families share, each worked out once.
type memos struct {
	memoReadings      memo[[]GravityReading]
	memoForecast      memo[forecastOr]
	memoSealed        memo[time.Time]
	memoBeforeSealing memo[[]GravityReading]
	memoLog           memo[*logged]
	memoStability     memo[Stability]
	memoAllLiquor     memo[Estimate[q.Volume]]
	memoOG            memo[Estimate[q.Gravity]]
	memoFermenterOG   memo[Estimate[q.Gravity]]
	memoCopperOG      memo[Estimate[q.Gravity]]
	memoFG            memo[Estimate[q.Gravity]]
	memoFermentedOG   memo[Estimate[q.Gravity]]
	memoExpectedFG    memo[Estimate[q.Gravity]]
	memoOGExpected    memo[Estimate[q.Gravity]]
	memoMashed        memo[Estimate[q.Number]]
	memoAddedLater    memo[Estimate[q.Number]]
	memoMashedWeight  memo[Estimate[q.Mass]]
	memoABV           memo[Estimate[q.Percent]]
	memoBoilGravity   memo[Estimate[q.Gravity]]
	memoHoppedVolume  memo[Estimate[q.Volume]]
	memoBitterness    memo[Estimate[q.Bitterness]]
	memoResidual      memo[likelyAndWorst[q.Carbonation]]
	memoCultures      memo[[]culture]
	memoMusts         memo[musts]
	memoMadeOf        memo[bool]
	memoAdditions     memo[[]addition]
	memoOver          memo[Estimate[q.Number]]
	memoFall          memo[fall]
	memoSharedVolume  memo[Estimate[q.Volume]]
	memoGylePriming   memo[primed]
	memoDeparted      memo[*departures]
	ofContainer       []containerMemos // by the container's index
	hydrometers       []*hydrometer
}

// containerMemos are what several figures of one container share.
type containerMemos struct {
	fill     memo[Estimate[q.Volume]]
	contents memo[Estimate[q.Volume]]
	priming  memo[primed]
	fall     memo[fall]
	places   memo[[]place]
	warmest  memo[likelyAndWorst[q.Temperature]]
	reckoned memo[*reckoned]
}

// memo remembers what was worked out once.
type memo[T any] struct {
	done  bool
	value T
}

func (m *memo[T]) once(work func() T) T {
	if !m.done {
		m.value = work()
		m.done = true
	}
	return m.value
}
