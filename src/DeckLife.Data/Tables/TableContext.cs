using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>What the survey tables do not say themselves.</summary>
internal sealed record TableContext
{
    public ReferenceElectrode? Electrode { get; init; }

    /// <summary>The answer to a question of sign or unit: as-written, sign-left-out, volts.</summary>
    public string? Readings { get; init; }

    /// <summary>Station of x = 0 [m].</summary>
    public double? StartStationM { get; init; }
}
