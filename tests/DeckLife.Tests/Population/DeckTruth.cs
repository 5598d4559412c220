using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Propagation;
using DeckLife.Tests.Projection;

namespace DeckLife.Tests.Population;

/// <summary>What a simulated deck is like; and what its engineer states of it, which may be wrong.</summary>
internal sealed record DeckTruth
{
    public double MeanLnSurface { get; init; } = Math.Log(6);

    public double SdLnSurface { get; init; } = 0.25;

    public double MeanLnDiffusion { get; init; } = Math.Log(18);

    public double SdLnDiffusion { get; init; } = 0.35;

    public double Correlation { get; init; }

    public double BackgroundKgPerM3 { get; init; } = 0.1;

    public double MeanLnThreshold { get; init; } = Math.Log(1.0) - 0.5 * Math.Log(1 + 0.35 * 0.35);

    public double SdLnThreshold { get; init; } = Math.Sqrt(0.5 * Math.Log(1 + 0.35 * 0.35));

    public double MeanLnPropagation { get; init; } = Math.Log(5) - 0.5 * Math.Log(1.09);

    public double SdLnPropagation { get; init; } = Math.Sqrt(0.5 * Math.Log(1.09));

    public double Detection { get; init; } = 0.9;

    /// <summary>Relative s.d. of the whole area that sounding outlines: as the engineer states it.</summary>
    public double OutlineError { get; init; } = new SurveyModel().SoundingAreaError;

    /// <summary>What the model's form gets wrong on this deck: shift of the normal score of every share.</summary>
    public double Discrepancy { get; init; }

    /// <summary>S.d. of the laboratory's error, the same at every content [kg/m³].</summary>
    public double LabErrorSd { get; init; } = 0.1;

    /// <summary>S.d. of a laboratory error in proportion to the content, which the fit does not state.</summary>
    public double LabErrorShare { get; init; }

    public double PotentialShiftMv { get; init; }

    public int Cores { get; init; } = 8;

    /// <summary>Cover [mm] from its standard score and place.</summary>
    public Func<double, double, double, double> CoverMm { get; init; } = (z, _, _) => 60 + 8 * z;

    /// <summary>Shift of ln Cs from the score of a field of its own and the place.</summary>
    public Func<double, double, double, double> LnSurfaceShift { get; init; } = (_, _, _) => 0;

    /// <summary>Shift of ln D from a uniform number of the place.</summary>
    public Func<double, double> LnDiffusionShift { get; init; } = _ => 0;

    /// <summary>Exposure [yr] at which as much diffusion has gone by as in so many years at the coefficient of the survey.</summary>
    public Func<double, double> YearsAtEffective { get; init; } = years => years;

    /// <summary>Where a core is taken, from two uniform numbers.</summary>
    public Func<double, double, (double X, double Y)> CorePlace { get; init; } =
        (u, v) => (SimulatedDeck.LengthM * u, SimulatedDeck.WidthM * v);

    /// <summary>What the engineer states: the priors from which <see cref="FromPrior"/> draws.</summary>
    public static Deck Stated { get; } =
        ExampleDecks.Plain with
        {
            Strategies = [ExampleDecks.Nothing],
            Surveys = new(),
            Prices = null,
            Horizon = DeckLife.Quantities.Age.FromYears(60),
            Analysis = new()
            {
                Seed = 11,
                Draws = 400,
                Points = 256,
                Threads = 1,
            },
        };

    /// <summary>A truth drawn from what is stated, and from what decks of one kind are like.</summary>
    public static DeckTruth FromPrior(RandomStream stream)
    {
        var usual = new DeckTruth();
        var (mean, sd) = (60 + 5 * stream.NextNormal(), 6 + 5 * stream.NextUniform());
        return usual with
        {
            MeanLnSurface = Math.Log(6) + 0.25 * stream.NextNormal(),
            SdLnSurface = 0.15 + 0.2 * stream.NextUniform(),
            MeanLnDiffusion = Math.Log(18) + 0.3 * stream.NextNormal(),
            SdLnDiffusion = 0.2 + 0.3 * stream.NextUniform(),
            Correlation = 0.6 * stream.NextUniform() - 0.3,
            MeanLnThreshold = usual.MeanLnThreshold + usual.SdLnThreshold * stream.NextNormal(),
            MeanLnPropagation =
                usual.MeanLnPropagation + usual.SdLnPropagation * stream.NextNormal(),
            CoverMm = (z, _, _) => mean + sd * z,
            LabErrorSd = 0.06 + 0.08 * stream.NextUniform(),
            Discrepancy = Stated.Surveys.ModelDiscrepancySd * stream.NextNormal(),
        };
    }
}
