using DeckLife.Population;

namespace DeckLife.Propagation;

/// <summary>The time from initiation to damage at the surface.</summary>
public sealed record PropagationInput
{
    /// <summary>The period [yr] with its spread; used by <see cref="PropagationModel.StatedPeriod"/> alone.</summary>
    public required UncertainValue Period { get; init; }

    /// <summary>Share of the spread's variance (of the period, or of the corrosion rate) that varies within the deck, 0 to 1; the rest is ignorance. Where not stated: 0.</summary>
    public double WithinDeckShare { get; init; }

    /// <summary>Where the period comes from.</summary>
    public PropagationModel Model { get; init; }

    /// <summary>Corrosion rate [µA/cm²] with its spread; needed by every model but the stated period.</summary>
    public UncertainValue? CorrosionRate { get; init; }

    /// <summary>Loss of radius at damage [µm]; needed by <see cref="PropagationModel.CriticalLoss"/>.</summary>
    public double? CriticalLossUm { get; init; }

    /// <summary>The concrete, for the models of rust pressure.</summary>
    public CrackingConcrete Concrete { get; init; } = new();

    /// <summary>Where the value comes from.</summary>
    public required string Source { get; init; }

    /// <summary>The uncertain value that the model starts from: the period, or the corrosion rate.</summary>
    internal UncertainValue Driver =>
        Model == PropagationModel.StatedPeriod ? Period : CorrosionRate ?? default;

    /// <summary>The period at one point [yr].</summary>
    /// <param name="driver">The point's period [yr] or corrosion rate [µA/cm²].</param>
    /// <param name="coverMm">The point's cover [mm].</param>
    /// <param name="barDiameterMm">Bar diameter [mm].</param>
    internal double YearsAt(double driver, double coverMm, double barDiameterMm) =>
        Model switch
        {
            PropagationModel.LiuWeyers1998 => LiuWeyers1998.YearsToCracking(
                coverMm,
                barDiameterMm,
                driver,
                Concrete
            ),
            PropagationModel.ElMaaddawySoudki2007 => ElMaaddawySoudki2007.YearsToCracking(
                coverMm,
                barDiameterMm,
                driver,
                Concrete
            ),
            PropagationModel.CriticalLoss => FaradayLaw.YearsToLoss(CriticalLossUm ?? 0, driver),
            _ => driver,
        };
}
