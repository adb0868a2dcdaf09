// Package tell makes sentences from a report: what just changed and why, and the whole state in words. Every number in a
// sentence is the rounded number of the tables, taken from the report; nothing is computed here but differences.
package tell
