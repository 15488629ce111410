package figures

// ID names a figure: in JSON, in figure: links, and in the code that asks for it.
type ID string

// The ids of figures, by the file that declares them.
const (
	// alcohol.go
	IDApparentAttenuation ID = "apparent-attenuation"
	IDRealAttenuation     ID = "real-attenuation"
	IDRealExtract         ID = "real-extract"
	IDABV                 ID = "abv"
	IDABVExpected         ID = "abv-expected"
	IDABVConditioned      ID = "abv-conditioned"
	IDABVDuty             ID = "abv-duty"
	IDUnitsPerPint        ID = "units-per-pint"
	// condition.go
	IDResidualCO2  ID = "residual-co2"
	IDPrimingCO2   ID = "priming-co2"
	IDCO2ToCome    ID = "co2-to-come"
	IDGasInAll     ID = "gas-in-all"
	IDCondition    ID = "condition"
	IDPrimingSugar ID = "priming-sugar"
	// copper.go
	IDBoilOff         ID = "boil-off"
	IDBitterness      ID = "bitterness"
	IDBitternessRatio ID = "bitterness-ratio"
	IDColour          ID = "colour"
	// energy.go
	IDAbw               ID = "abw"
	IDEnergy            ID = "energy"
	IDEnergyConditioned ID = "energy-conditioned"
	IDCarbohydrate      ID = "carbohydrate"
	// forecast.go
	IDForecastFG     ID = "forecast-fg"
	IDForecastFinish ID = "forecast-finish"
	// gravity.go
	IDOG         ID = "og"
	IDFG         ID = "fg"
	IDGravityNow ID = "gravity-now"
	IDFGExpected ID = "fg-expected"
	// infusion.go
	IDInfusionLiquor ID = "infusion-liquor"
	IDInfusionHeat   ID = "infusion-heat"
	// keeping.go
	IDReadyOn ID = "ready-on"
	IDDrinkBy ID = "drink-by"
	// liquor.go
	IDLiquorNeeded ID = "liquor-needed"
	IDSpargeLiquor ID = "sparge-liquor"
	IDLiquorBack   ID = "liquor-back"
	IDBoilOn       ID = "boil-on"
	// log.go
	IDLoggerOffset ID = "logger-offset"
	IDLoggerDrift  ID = "logger-drift"
	// mash.go
	IDOGExpected        ID = "og-expected"
	IDMashYield         ID = "mash-yield"
	IDBrewhouseYield    ID = "brewhouse-yield"
	IDLiquorToGrist     ID = "liquor-to-grist"
	IDStrikeTemperature ID = "strike-temperature"
	IDMashHeatLost      ID = "mash-heat-lost"
	// packages.go
	IDHeadspace       ID = "headspace"
	IDPressureWarmest ID = "pressure-warmest"
	IDPressureCellar  ID = "pressure-cellar"
	IDPressureMargin  ID = "pressure-margin"
	IDConditionLimit  ID = "condition-limit"
	IDGasFree         ID = "gas-free"
	IDBagSlack        ID = "bag-slack"
	// pitching.go
	IDPitchingRate ID = "pitching-rate"
	// volumes.go
	IDLosses    ID = "losses"
	IDPints     ID = "pints"
	IDPintsLeft ID = "pints-left"
	// water.go
	IDIon                ID = "ion"
	IDSulphateChloride   ID = "sulphate-chloride"
	IDResidualAlkalinity ID = "residual-alkalinity"
)
