namespace DeckLife.Placement;

/// <summary>One reading of a placement day against the limits.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="Evaporation">Evaporation rate [kg/m²/h] with its band.</param>
/// <param name="EvaporationOutcome">Its band against the greatest rate; absent: no limit stated.</param>
/// <param name="Air">Air temperature [°C] with its margin.</param>
/// <param name="AirOutcome">Its band against the least temperature; absent: no limit stated.</param>
public sealed record PlacementHour(
    PlacementReading Reading,
    EstimateBand Evaporation,
    BandOutcome? EvaporationOutcome,
    EstimateBand Air,
    BandOutcome? AirOutcome
);
