namespace DeckLife.Population;

/// <summary>How probable the surveys are where stated shares of the deck are damaged and initiated.</summary>
/// <remarks>
/// One state a place: passive, active, or damaged (found, not found, or already patched). Sounding is multinomial over found,
/// patched and neither; potentials at the places left are a mixture of the passive and the active distribution whose weights are
/// the shares of the states among those places. Each part counts for its number of independent readings.
/// </remarks>
public sealed class SurveyLikelihood
{
    private readonly SurveyEvidence evidence;
    private readonly SurveyModel model;
    private readonly double[] passive;
    private readonly double[] active;
    private readonly double patchedAmongDamaged;

    /// <summary>Prepares the likelihood.</summary>
    /// <param name="evidence">What the surveys found.</param>
    /// <param name="model">What they are taken to see.</param>
    public SurveyLikelihood(SurveyEvidence evidence, SurveyModel model)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        ArgumentNullException.ThrowIfNull(model);
        this.evidence = evidence;
        this.model = model;
        passive =
        [
            .. evidence.PotentialsMv.Select(v =>
                Density(v, model.PassiveMeanMv, model.PassiveSdMv)
            ),
        ];
        active =
        [
            .. evidence.PotentialsMv.Select(v => Density(v, model.ActiveMeanMv, model.ActiveSdMv)),
        ];
        var damagedAndFound = (evidence.UnsoundShare ?? 0) / model.DetectionProbability;
        var everDamaged = evidence.PatchedShare + damagedAndFound;
        patchedAmongDamaged = everDamaged > 0 ? evidence.PatchedShare / everDamaged : 0;
    }

    /// <summary>Share of the deck that is damaged and not yet patched, of all that has ever been damaged.</summary>
    public double UnpatchedAmongDamaged => 1 - patchedAmongDamaged;

    /// <summary>Logarithm of the likelihood, up to a constant.</summary>
    /// <param name="damaged">Share of the deck damaged until now, patched places included.</param>
    /// <param name="initiated">Share of the deck initiated, the damaged included.</param>
    public double Log(double damaged, double initiated)
    {
        const double Least = 1e-9;
        damaged = Math.Clamp(damaged, Least, 1 - Least);
        initiated = Math.Clamp(initiated, damaged, 1 - Least);
        var found = damaged * UnpatchedAmongDamaged * model.DetectionProbability;
        var patched = damaged * patchedAmongDamaged;
        var rest = 1 - found - patched;
        var log = 0.0;
        if (evidence.UnsoundShare is { } unsound)
        {
            var neither = Math.Max(0, 1 - unsound - evidence.PatchedShare);
            log +=
                evidence.SoundingPlaces
                * (
                    Term(unsound, found)
                    + Term(evidence.PatchedShare, patched)
                    + Term(neither, rest)
                );
        }

        if (passive.Length == 0)
        {
            return log;
        }

        // Places where a node counts: those that sounding left, or, where areas have no corners, all that is not patched.
        var places = evidence.NodesAreOnSoundPlaces ? rest : 1 - patched;
        var corroding = Math.Clamp(
            (initiated - damaged + (places - (1 - damaged))) / places,
            Least,
            1 - Least
        );
        var sum = 0.0;
        for (var i = 0; i < passive.Length; i++)
        {
            sum += Math.Log((1 - corroding) * passive[i] + corroding * active[i]);
        }

        return log + sum * evidence.IndependentNodes / passive.Length;
    }

    private static double Term(double share, double probability) =>
        share <= 0 ? 0 : share * Math.Log(Math.Max(probability, 1e-300));

    /// <summary>Density of a potential, up to a constant factor.</summary>
    /// <remarks>A reading far outside both distributions says nothing: a floor keeps it from deciding everything.</remarks>
    internal static double Density(double value, double mean, double sd) =>
        Math.Exp(-0.5 * (value - mean) * (value - mean) / (sd * sd)) / sd + 1e-6 / sd;
}
