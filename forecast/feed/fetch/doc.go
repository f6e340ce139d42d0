// Package fetch gets documents from weather services the way their operators
// ask for. It knows nothing of weather.
package fetch
