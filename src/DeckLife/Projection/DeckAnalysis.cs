using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Fitting;

namespace DeckLife.Projection;

/// <summary>The whole way from a deck's cores to its strategies: fit each core, fit the deck, project.</summary>
public static class DeckAnalysis
{
    /// <summary>Runs it.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="progress">Told the share of the projection that is done, 0 to 1; absent: nobody.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <exception cref="DeckFitRefusedException">The deck's cores can't be fitted as a deck.</exception>
    /// <exception cref="ProjectionRefusedException">The deck can't be projected; every reason is given.</exception>
    /// <exception cref="OperationCanceledException">It was ended early.</exception>
    public static DeckProjection Run(
        Deck deck,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(deck);
        DeckProjector.Check(deck);
        var cores = ImmutableArray.CreateBuilder<ProfileFit>(deck.Cores.Length);
        using (PhaseTrace.Begin("fit each core"))
        {
            foreach (var core in deck.Cores)
            {
                cancellation.ThrowIfCancellationRequested();
                cores.Add(ProfileFitter.Fit(core));
            }
        }

        var fit = DeckFitter.Fit(cores, OptionsFor(deck));
        cancellation.ThrowIfCancellationRequested();
        return DeckProjector.Project(deck, fit, cores.MoveToImmutable(), progress, cancellation);
    }

    /// <summary>How a deck's cores are fitted as a deck where nothing else is asked for.</summary>
    /// <param name="deck">The deck.</param>
    public static DeckFitOptions OptionsFor(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return new()
        {
            Seed = deck.Analysis.Seed,
            ReferenceExposureAge = deck.ExposureAge,
            ConcreteAgeAtFirstSalt = deck.ConcreteAgeAtFirstSalt,
            FixedAgeingExponent = deck.AgeingExponent > 0 ? deck.AgeingExponent : null,
        };
    }
}
