namespace DeckLife.Economics;

/// <summary>What a unit price is paid for.</summary>
public enum PriceBasis
{
    /// <summary>Square metre of deck.</summary>
    DeckArea,

    /// <summary>Square metre of repaired (patched) area.</summary>
    RepairedArea,

    /// <summary>Cubic metre of old concrete removed.</summary>
    RemovedVolume,

    /// <summary>Cubic metre of overlay placed.</summary>
    PlacedVolume,

    /// <summary>Once for each intervention (mobilisation, traffic control).</summary>
    LumpSum,

    /// <summary>Square metre of deck renewed when the end criterion is met: what reaching the end costs.</summary>
    RenewedArea,
}
