// Package nws reads the raw grid forecasts and the station observations of the
// US National Weather Service, https://www.weather.gov/documentation/services-web-api.
package nws

// Reader reads the feed of the National Weather Service.
type Reader struct{}
