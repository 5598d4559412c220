using System.Collections.Immutable;
using DeckLife.Network.Condition;
using DeckLife.Network.Results;
using DeckLife.Projection;

namespace DeckLife.Data.Networks;

/// <summary>A network's results as tables of named columns: what CSV and Parquet both write.</summary>
internal static class NetworkTables
{
    /// <summary>One row a deck, in the network's order; a deck without an answer has its reason and no numbers.</summary>
    public static NetworkTable Decks(NetworkResult result)
    {
        var rows = result.Decks;
        var columns = ImmutableArray.CreateBuilder<NetworkColumn>();
        void Text(string name, Func<DeckRow, string?> of) =>
            columns.Add(new(name, [.. rows.Select(of)], null));
        void Number(string name, Func<DeckRow, double?> of) =>
            columns.Add(new(name, null, [.. rows.Select(of)]));
        Text("folder", r => r.Member.Folder);
        Text("name", r => r.Name);
        Text("status", r => r.Failure is null ? "projected" : "failed");
        Text("reason", r => r.Failure);
        Text("evidence", r => r.Evidence);
        Text("corridor", r => r.Member.Corridor);
        Text("exposure_class", r => r.Member.ExposureClass);
        Number("latitude_deg", r => r.Member.LatitudeDeg);
        Number("longitude_deg", r => r.Member.LongitudeDeg);
        Number("weight", r => r.Member.Weight);
        Number("area_m2", r => r.AreaM2);
        Number("survey_year", r => r.SurveyYear);
        Band("damaged_first_year", r => r.DamagedFirstYear);
        Choice("nothing", r => r.Nothing, described: false);
        Choice("worst_first", r => r.WorstFirst, described: true);
        Choice("best", r => r.Best, described: true);
        Text("remarks", r => r.Remarks);
        return new(columns.ToImmutable());

        void Band(string name, Func<DeckRow, PercentileBand?> of)
        {
            Number(name + "_p05", r => of(r)?.P05);
            Number(name + "_p50", r => of(r)?.P50);
            Number(name + "_p95", r => of(r)?.P95);
        }

        void Choice(string name, Func<DeckRow, DeckChoice?> of, bool described)
        {
            if (described)
            {
                Text(name + "_strategy", r => of(r)?.Strategy);
                Number(name + "_start_year", r => of(r)?.StartYear);
                Number(name + "_cost", r => of(r)?.Cost);
            }

            Band(name + "_damaged_last_year", r => of(r)?.DamagedLastYear);
        }
    }

    /// <summary>One row a program, year and way of erring: damaged share, and area and decks of each class.</summary>
    public static NetworkTable Condition(NetworkResult result)
    {
        var rows = result
            .Plans.SelectMany(p =>
                p.Condition.SelectMany(y =>
                    Enumerable.Range(0, 2).Select(t => (Plan: p, Year: y, Together: t == 1))
                )
            )
            .ToArray();
        var columns = ImmutableArray.CreateBuilder<NetworkColumn>();
        columns.Add(new("program", [.. rows.Select(r => r.Plan.Name)], null));
        columns.Add(
            new("decks_err", [.. rows.Select(r => r.Together ? "together" : "independently")], null)
        );
        columns.Add(new("calendar_year", null, [.. rows.Select(r => (double?)r.Year.Year)]));
        void Band(string name, Func<ConditionYear, ConditionBand> of)
        {
            void Add(string end, Func<PercentileBand, double> value) =>
                columns.Add(
                    new(
                        name + end,
                        null,
                        [
                            .. rows.Select(r =>
                                (double?)value(
                                    r.Together ? of(r.Year).Together : of(r.Year).Independent
                                )
                            ),
                        ]
                    )
                );
            Add("_p05", b => b.P05);
            Add("_p50", b => b.P50);
            Add("_p95", b => b.P95);
        }

        Band("damaged_fraction", y => y.Damaged);
        for (var c = 0; c <= result.Network.ClassLimits.Length; c++)
        {
            var place = c;
            Band($"area_fraction_class_{c + 1}", y => y.AreaByClass[place]);
            Band($"decks_class_{c + 1}", y => y.DecksByClass[place]);
        }

        return new(columns.ToImmutable());
    }

    /// <summary>One row a program and year: budget, spent, decks closed.</summary>
    public static NetworkTable Money(NetworkResult result)
    {
        var rows = result
            .Plans.SelectMany(p => result.Network.Budgets.Select((b, y) => (p, y, b)))
            .ToArray();
        return new([
            new("program", [.. rows.Select(r => r.p.Name)], null),
            new(
                "calendar_year",
                null,
                [.. rows.Select(r => (double?)(result.Network.FirstYear + r.y))]
            ),
            new("budget", null, [.. rows.Select(r => (double?)r.b)]),
            new("spent", null, [.. rows.Select(r => (double?)r.p.SpentByYear[r.y])]),
            new("decks_closed", null, [.. rows.Select(r => (double?)r.p.ClosuresByYear[r.y])]),
        ]);
    }
}
