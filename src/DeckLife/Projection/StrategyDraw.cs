namespace DeckLife.Projection;

/// <summary>What one strategy does to the deck in one draw of what is not known.</summary>
internal sealed class StrategyDraw
{
    /// <summary>Share damaged and not repaired at the times of the strategy's grid.</summary>
    public required double[] Damaged { get; init; }

    /// <summary>Share damaged, or patched since the last full-width overlay, at the times of the strategy's grid.</summary>
    public required double[] DamagedOrPatched { get; init; }

    /// <summary>Initiated share at the times of the strategy's grid.</summary>
    public required double[] Initiated { get; init; }

    /// <summary>The times that the shares stand at.</summary>
    public required TimeGrid Grid { get; init; }

    /// <summary>What each intervention of the plan does; absent where it does not come about within the horizon.</summary>
    public InterventionDraw?[] Interventions { get; init; } = [];

    /// <summary>When the overlay ends by itself, from the survey [yr]; infinite where it does not.</summary>
    public double OverlayEndYr { get; init; } = double.PositiveInfinity;
}
