package figures

import q "gylebook/internal/quantity"

// memos are the estimates that several families share, each worked out once.
type memos struct {
	gravitiesRead   bool
	gravityReadings []GravityReading
	containers      []Container
	forecast        *Forecast
	noForecast      string
	forecastDone    bool

	memoOG         memo[q.Gravity]
	memoFG         memo[q.Gravity]
	memoExpectedFG memo[q.Gravity]
	memoOGExpected memo[q.Gravity]
	memoABV        memo[q.Percent]
	memoBitterness memo[q.Bitterness]
	memoResidual   memo[q.Carbonation]
	memoToCome     memo[q.Carbonation]
}
