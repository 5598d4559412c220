using System.Collections.Immutable;
using System.Diagnostics;
using DeckLife.Data.Folders;
using DeckLife.Notebooks;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Reporting.Notation;

namespace DeckLife.Benchmarks;

/// <summary>Times the phases of a deck's projection and of its report, in one fresh process each as a user has it.</summary>
internal static class DeckMode
{
    /// <summary>Projects a deck with five strategies over 75 years: its own, and others made of its materials.</summary>
    /// <param name="folder">The deck's folder.</param>
    /// <param name="draws">Draws; absent: the deck's own number.</param>
    public static int Project(string folder, int? draws = null)
    {
        if (DeckFolder.Read(folder).Deck is not { } deck)
        {
            return 2;
        }

        using var phases = new PhaseTimes();
        var five = WithFive(deck);
        five = five with { Analysis = five.Analysis with { Draws = draws ?? five.Analysis.Draws } };
        var projection = phases.Time("whole", () => DeckAnalysis.Run(five));
        phases.Print(Console.Out);
        PhaseTimes.PrintCollections(Console.Out);
        Console.WriteLine(
            FormattableString.Invariant(
                $"{projection.Strategies.Length} strategies, {five.Analysis.Draws} draws of {five.Analysis.Points} points, {five.Horizon.Years} yr; largest working set {Process.GetCurrentProcess().PeakWorkingSet64 / 1e6:F0} MB, managed {GC.GetTotalMemory(true) / 1e6:F0} MB"
            )
        );
        return 0;
    }

    /// <summary>Runs the report notebook cell by cell.</summary>
    /// <param name="folder">The deck's folder.</param>
    public static async Task<int> ReportAsync(string folder)
    {
        using var phases = new PhaseTimes();
        var watch = Stopwatch.StartNew();
        var (last, began) = ("start of the kernel", 0.0);
        void Cell(int number, int count)
        {
            var now = watch.Elapsed.TotalSeconds;
            if (now - began > 0.05)
            {
                Console.WriteLine(
                    FormattableString.Invariant($"{last}: {now - began:F2} s by the wall")
                );
            }

            (last, began) = ($"cell {number} of {count}", now);
        }

        var result = await FolderReport
            .RunAsync(folder, "deck", UnitSystem.UsCustomary, progress: Cell)
            .ConfigureAwait(false);
        Console.WriteLine(
            FormattableString.Invariant(
                $"{last} and the page: {watch.Elapsed.TotalSeconds - began:F2} s by the wall"
            )
        );
        Console.WriteLine(
            FormattableString.Invariant(
                $"whole: {watch.Elapsed.TotalSeconds:F2} s by the wall, {Environment.CpuUsage.TotalTime.TotalSeconds:F2} s of processor time, {GC.GetTotalAllocatedBytes() / 1e9:F2} GB allocated"
            )
        );
        phases.Print(Console.Out);
        PhaseTimes.PrintCollections(Console.Out);
        if (result.Run.Failure is { } failure)
        {
            Console.WriteLine(failure);
            return 3;
        }

        return 0;
    }

    // As many kinds of work as a deck's materials allow: deep removal, waiting, and a second overlay when the first ends.
    private static Deck WithFive(Deck deck)
    {
        var material = deck.Materials[0].Name;
        Intervention Overlay(double atYr, double removedMm, double thicknessMm) =>
            new()
            {
                At = Age.FromYears(atYr),
                Removal = new FixedDepthRemoval(Depth.FromMillimetres(removedMm)),
                Overlay = new(material, Depth.FromMillimetres(thicknessMm)),
            };
        ImmutableArray<Strategy> others =
        [
            new() { Name = "deep removal", Interventions = [Overlay(1, 50, 60)] },
            new() { Name = "twice", Interventions = [Overlay(1, 10, 40), Overlay(30, 25, 50)] },
        ];
        return deck with
        {
            Horizon = Age.FromYears(75),
            Strategies = [.. deck.Strategies.Take(3), .. others],
        };
    }
}
