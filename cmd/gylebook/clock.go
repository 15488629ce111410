package main

import (
	"fmt"
	"strconv"
	"time"
)

// clock is the time to work at: --now, else SOURCE_DATE_EPOCH (the seconds since
// 1970, as reproducible-builds.org defines it), else the clock.
func (c *call) clock() (time.Time, error) {
	if c.Now != "" {
		now, err := time.Parse(time.RFC3339, c.Now)
		if err != nil {
			return time.Time{}, fmt.Errorf("reading --now: %q is not a time such as 2026-06-01T12:00:00Z", c.Now)
		}
		return now, nil
	}
	if epoch := c.getenv("SOURCE_DATE_EPOCH"); epoch != "" {
		seconds, err := strconv.ParseInt(epoch, 10, 64)
		if err != nil || seconds < 0 || seconds > lastSecond {
			return time.Time{}, fmt.Errorf("reading SOURCE_DATE_EPOCH: %q is not a count of seconds since 1970", epoch)
		}
		return time.Unix(seconds, 0).UTC(), nil
	}
	return time.Now(), nil
}

// lastSecond is the end of the year 9999, the last that RFC 3339 can write.
const lastSecond = 253402300799

// startOfDay is 00:00 of the day that it is at now in the zone.
func startOfDay(now time.Time, zone *time.Location) time.Time {
	y, m, d := now.In(zone).Date()
	return time.Date(y, m, d, 0, 0, 0, 0, zone)
}
