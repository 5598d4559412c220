using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Economics;
using DeckLife.Population;
using DeckLife.Propagation;
using DeckLife.Rehabilitation;
using static System.FormattableString;

namespace DeckLife.Projection;

/// <summary>What a projection takes for granted, and the cautions that stand beside its answer.</summary>
internal static class ProjectionNotes
{
    /// <summary>The cautions of every report.</summary>
    public static ImmutableArray<string> Cautions(bool exposesBars)
    {
        var cautions = ImmutableArray.CreateBuilder<string>();
        cautions.Add(
            "A planning aid: it does not judge structural capacity or safety to carry traffic. Local specifications and a licensed engineer decide."
        );
        cautions.Add(
            exposesBars
                ? "At least one strategy exposes top bars, by its planned depth or by repairs: that needs a structural check, staging and shoring. It is never to be assumed for post-tensioned or precast decks."
                : "Removal below the top bars needs a structural check, staging and shoring, and is never to be assumed for post-tensioned or precast decks."
        );
        cautions.Add("Half-cell and model results are probabilities, not findings.");
        cautions.Add(
            "Concrete removal, hydrodemolition, blasting and silica dust hurt people: site safety rules apply."
        );
        return cautions.ToImmutable();
    }

    /// <summary>What is assumed, the folder's own assumptions first.</summary>
    public static ImmutableArray<Assumption> Assumptions(
        Deck deck,
        CoverSurvey cover,
        SurveyHindcast? hindcast
    )
    {
        var list = deck.Assumptions.ToBuilder();
        if (deck.Soffit is { SurfaceChloride: { } underside, Source: var source })
        {
            list.Add(
                Assumption.Of(
                    "underside",
                    new MessageTemplate(
                        "Salt stands on the underside at {0:0.##} kg/m3 since the first salt, and reaches the top bars through the slab. "
                            + "The bottom bars, which it reaches first, are not counted: a soffit that corrodes by itself is judged apart.",
                        underside.Mean
                    ),
                    source
                )
            );
        }

        list.Add(
            new(
                "surface chloride",
                "The surface content stays what the profiles show today, and a new surface takes it on at once.",
                "on the safe side for a surface that salt builds up slowly"
            )
        );
        list.Add(
            Assumption.Of(
                "cover",
                cover.Readings > 0
                    ? new MessageTemplate(
                        "{0} readings, mean {1:F1} mm, standard deviation {2:F1} mm, {3} above 0; {4}",
                        cover.Readings,
                        cover.MeanMm,
                        cover.StandardDeviationMm,
                        cover.Shape is null ? "normal" : "their own shape, smoothed,",
                        Independence(cover)
                    )
                    : new MessageTemplate(
                        "Stated, not surveyed: mean {0:F1} mm, standard deviation {1:F1} mm, normal above 0.",
                        cover.MeanMm,
                        cover.StandardDeviationMm
                    ),
                cover.Readings > 0 ? "the deck's cover survey" : "the deck's own statement"
            )
        );
        list.Add(
            new(
                "threshold",
                Invariant(
                    $"{100 * deck.Threshold.WithinDeckShare:F0} % of its spread varies within the deck; the rest is not known about the deck as a whole."
                ),
                deck.Threshold.Source
            )
        );
        list.Add(
            new(
                "propagation",
                Invariant(
                    $"From initiation to damage: {Words(deck.Propagation.Model)}; {100 * deck.Propagation.WithinDeckShare:F0} % of the spread varies within the deck; damage covers the same share of the area as the corrosion that causes it."
                ),
                deck.Propagation.Source
            )
        );
        list.Add(
            new(
                "model form",
                Invariant(
                    $"What the model itself gets wrong is a shift of every share's normal score with standard deviation {deck.Surveys.ModelDiscrepancySd:G3}, one for the whole deck and all times."
                ),
                "judgement; an input"
            )
        );
        if (hindcast is { FiniteAreaSd: > 0 })
        {
            list.Add(
                new(
                    "one deck of many",
                    Invariant(
                        $"Hollow places cluster, so that chance moves a whole deck's share: by a standard deviation of {hindcast.FiniteAreaSd:G3} on the same scale, together with the model's form, estimated from the sounding map. The sounding itself is taken to mark the hollow area to {100 * deck.Surveys.SoundingAreaError:F0} % (judgement; an input)."
                    ),
                    "the deck's own sounding map"
                )
            );
        }

        if (deck.Surveys.Learn && !(deck.Soundings.IsEmpty && deck.HalfCells.IsEmpty))
        {
            list.Add(
                new(
                    "surveys",
                    Invariant(
                        $"Sounding finds {100 * deck.Surveys.DetectionProbability:F0} % of what is damaged (judgement). Potentials over passive bars {deck.Surveys.PassiveMeanMv:F0} ± {deck.Surveys.PassiveSdMv:F0} mV CSE, over active ones {deck.Surveys.ActiveMeanMv:F0} ± {deck.Surveys.ActiveSdMv:F0}."
                    ),
                    "potentials: Lentz et al. as used by Faber and Sørensen, Structural Safety 24 (2002), from memory, unless the deck states its own"
                )
            );
        }

        list.Add(
            new(
                "ageing",
                deck.AgeingExponent == 0
                    ? "The old concrete's diffusion coefficient stays what it was on average until the survey."
                    : Invariant(
                        $"The old concrete ages with exponent {deck.AgeingExponent:G4} of the instantaneous law, before the survey and after it."
                    ),
                "Tang and Gulikers, Cement and Concrete Research 37 (2007)"
            )
        );
        if (deck.Strategies.Any(s => !s.Interventions.IsEmpty))
        {
            list.Add(
                new(
                    "repairs",
                    "At an intervention all damaged area is repaired: concrete comes out to 3/4 in clear under the bar, which then lies in new material. "
                        + "Bars already active and not undercut go on corroding. Salt that stays in the deck goes on moving through every later intervention; "
                        + "a place repaired twice is taken to lie over concrete as salty as if it had been repaired once."
                        + (
                            deck.Halo is null
                                ? " Faster corrosion beside repairs is not counted."
                                : ""
                        ),
                    "common practice of North American repair specifications"
                )
            );
            if (deck.Halo is { } halo)
            {
                list.Add(
                    new(
                        "rim around repairs",
                        Invariant(
                            $"In a rim of {halo.Width.Millimetres:0} mm around patches of {halo.PatchSide.Millimetres / 1000:0.##} m bars corrode {halo.RateFactor:0.##} times as fast as before; which bars lie in it is independent of their salt."
                        ),
                        halo.Source
                    )
                );
            }

            foreach (var material in deck.Materials.Where(m => m.CrackedFraction > 0))
            {
                list.Add(
                    new(
                        $"cracks in {material.Name}",
                        Invariant(
                            $"{100 * material.CrackedFraction:0.#} % of the area is cracked from the start; salt passes there {material.CrackedDiffusionFactor:0.##} times as fast."
                        ),
                        material.Source
                    )
                );
            }

            foreach (var thin in deck.Protections)
            {
                list.Add(
                    new(
                        thin.Name,
                        thin.Kind == ProtectionKind.Barrier
                            ? Invariant(
                                $"No salt passes while it lasts, but on {100 * thin.PassingFraction:0.#} % of the area, where it leaks; then the surface is as before."
                            )
                            : Invariant(
                                $"The surface takes on {100 * thin.PassingFraction:0.#} % of its content while it lasts; then all of it."
                            ),
                        thin.Source
                    )
                );
            }

            if (deck.Soffit?.SurfaceChloride is null)
            {
                list.Add(
                    new(
                        "underside",
                        "No salt comes or goes through the underside, as over stay-in-place forms or a dry soffit.",
                        deck.Soffit?.Source
                            ?? "where salt reaches the soffit (leaking joints, gutters, spray from below), this is not on the safe side"
                    )
                );
            }
            list.Add(
                Assumption.Of(
                    "depth classes",
                    new MessageTemplate(
                        "Removal to a chloride limit is let in at most three depths, those that 50, 80 and 95 % of the deck need, rounded up to {0} mm; "
                            + "each part of the deck is taken to get the class that its own content asks for.",
                        StrategyPlanner.DepthStepMm
                    ),
                    "a contractor can't follow a rule point by point"
                )
            );
        }

        list.AddRange(CostNotes.For(deck));
        return list.ToImmutable();
    }

    private static string Independence(CoverSurvey cover) =>
        cover.Field is null ? "each counts as independent, since too few have positions."
        : cover.IndependentReadings >= cover.Readings
            ? "their places cover the deck evenly enough for each to count."
        : Invariant(
            $"together they tell the deck's mean as well as {cover.IndependentReadings:F0} independent ones."
        );

    private static string Words(PropagationModel model) =>
        model switch
        {
            PropagationModel.LiuWeyers1998 =>
                "rust pressure after Liu and Weyers (1998) at the stated corrosion rate",
            PropagationModel.ElMaaddawySoudki2007 =>
                "rust pressure after El Maaddawy and Soudki (2007) at the stated corrosion rate",
            PropagationModel.CriticalLoss =>
                "a stated loss of steel at the stated corrosion rate, by Faraday's law",
            _ => "the stated period",
        };
}
