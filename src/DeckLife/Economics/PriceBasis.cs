namespace DeckLife.Economics;

/// <summary>What a unit price is paid for.</summary>
public enum PriceBasis
{
    /// <summary>Square metre of deck.</summary>
    DeckArea,

    /// <summary>Square metre of repaired (patched) area, as found on re-sounding.</summary>
    RepairedArea,

    /// <summary>Cubic metre of old concrete removed.</summary>
    RemovedVolume,

    /// <summary>Cubic metre of overlay placed.</summary>
    PlacedVolume,

    /// <summary>Once for each intervention (mobilisation, traffic control).</summary>
    LumpSum,

    /// <summary>Square metre of deck renewed when the end criterion is met: what reaching the end costs.</summary>
    RenewedArea,

    /// <summary>Square metre of deck whose planned removal lies in the price's depth class.</summary>
    RemovedArea,

    /// <summary>Once for each stage of each intervention (moving barriers, joints between stages).</summary>
    Stage,

    /// <summary>Day of lane or bridge closure.</summary>
    ClosureDay,

    /// <summary>Millimetre by which the finished grade rises (joints, approaches, drains, railings); nothing where it does not.</summary>
    GradeRise,

    /// <summary>Every year until the end criterion is met (maintenance).</summary>
    Year,

    /// <summary>Square metre damaged since the last visit, patched for the time being.</summary>
    InterimRepairedArea,
}
