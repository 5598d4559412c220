namespace DeckLife.Placement;

/// <summary>Weather and concrete at one time of a placement, measured or forecast.</summary>
/// <param name="Time">When, as the user wrote it; empty where not stated.</param>
/// <param name="AirC">Air temperature [°C].</param>
/// <param name="ConcreteC">Temperature of the concrete's surface [°C].</param>
/// <param name="RelativeHumidity">Relative humidity, 0 to 1.</param>
/// <param name="WindKmPerH">Wind speed 0.5 m above the surface [km/h]; a weather station's wind at 10 m is higher.</param>
public sealed record PlacementReading(
    string Time,
    double AirC,
    double ConcreteC,
    double RelativeHumidity,
    double WindKmPerH
);
