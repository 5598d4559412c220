namespace DeckLife.Placement;

/// <summary>The limits of the specification for a placement; what is absent is not compared.</summary>
public sealed record PlacementLimits
{
    /// <summary>Greatest evaporation rate [kg/m²/h].</summary>
    public double? GreatestEvaporationKgPerM2H { get; init; }

    /// <summary>Least air temperature [°C].</summary>
    public double? LeastAirC { get; init; }

    /// <summary>How far the air at the deck may differ from the reading or forecast, either way [°C]; 0: the reading is taken as it is.</summary>
    public double AirMarginC { get; init; }
}
