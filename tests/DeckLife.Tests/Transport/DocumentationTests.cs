using System.Runtime.CompilerServices;
using DeckLife.Initiation;
using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Transport;

/// <summary>The examples of src/docs/transport.md, compiled and run; a test holds the page against this file.</summary>
public class DocumentationTests
{
    [Fact]
    public void Examples_OfTheTransportPage_RunAndSayWhatTheyShould()
    {
        var section = new Section
        {
            Layers =
            [
                new ConcreteLayer
                {
                    Name = "deck",
                    Thickness = Depth.FromMillimetres(200),
                    Diffusion = new ConstantDiffusion(
                        DiffusionCoefficient.FromSquareMillimetresPerYear(30)
                    ),
                    InitialChloride = ChlorideContent.FromKilogramsPerCubicMetre(0.1),
                },
            ],
            Surface = new ConstantSurface(ChlorideContent.FromKilogramsPerCubicMetre(6)),
            Bottom = BottomFace.Sealed,
            Changes =
            [
                new SectionChange
                {
                    At = Age.FromYears(20),
                    Remove = Depth.FromMillimetres(25),
                    Place = new ConcreteLayer
                    {
                        Name = "overlay",
                        Thickness = Depth.FromMillimetres(50),
                        Diffusion = new InstantaneousAgeing(
                            DiffusionCoefficient.FromSquareMillimetresPerYear(20),
                            exponent: 0.5,
                            referenceAge: Age.FromDays(28)
                        ),
                        AgeAtStart = Age.FromDays(7),
                        InitialChloride = ChlorideContent.FromKilogramsPerCubicMetre(0),
                    },
                },
            ],
        };
        var result = SectionSolver.Solve(
            section,
            [new IngressQuery(Age.FromYears(40), Depth.FromMillimetres(75))]
        );
        var initiation = TimeToInitiation.InSection(
            section,
            bar: Depth.FromMillimetres(50),
            threshold: ChlorideContent.FromKilogramsPerCubicMetre(1.0),
            horizon: Age.FromYears(75)
        );
        var words = initiation switch
        {
            Reached reached => $"initiation at {reached.Age}",
            NotWithin within => $"not within {within.Horizon}",
            AlreadyAt already => $"above the threshold at {already.Start}",
            _ => throw new InvalidOperationException(),
        };
        var apparent = new ApparentAgeing(
            DiffusionCoefficient.FromSquareInchesPerYear(0.03),
            exponent: 0.4,
            referenceAge: Age.FromYears(20)
        );
        var instantaneous = apparent.ToInstantaneousFromBirth();

        Assert.Equal("deck", Assert.Single(result.Rows).Layer);
        Assert.InRange(result.ErrorEstimateKgPerM3, 0, 2e-4 * 6);
        // At 20 yr the bar has 0.98 kg/m3, and the residual chloride above it goes on moving down.
        Assert.InRange(Assert.IsType<Reached>(initiation).Age.Years, 20, 40);
        Assert.StartsWith("initiation at", words, StringComparison.Ordinal);
        Assert.Equal(0.6 * 0.03, instantaneous.Coefficient.SquareInchesPerYear, 1e-12);
    }

    [Fact]
    public void Page_EveryLineOfItsExamples_StandsInThisFile()
    {
        var here = File.ReadAllLines(Path()).Select(Squeezed).ToHashSet(StringComparer.Ordinal);
        var isCode = false;
        var lines = 0;
        foreach (
            var line in File.ReadLines(
                System.IO.Path.Combine(
                    System.IO.Path.GetDirectoryName(Path())!,
                    "../../../src/docs/transport.md"
                )
            )
        )
        {
            if (line.StartsWith("```", StringComparison.Ordinal))
            {
                isCode = line.Length > 3;
                continue;
            }

            if (isCode)
            {
                lines++;
                Assert.Contains(Squeezed(line), here);
            }
        }

        Assert.True(lines > 50);
    }

    private static string Squeezed(string line) => line.Trim();

    private static string Path([CallerFilePath] string path = "") => path;
}
