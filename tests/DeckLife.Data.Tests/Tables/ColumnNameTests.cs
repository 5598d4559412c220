using DeckLife.Data.Tables;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

/// <summary>The heads in use, and the column that each means: a sheet that was read once is read for good.</summary>
public class ColumnNameTests
{
    private static readonly Dictionary<string, ColumnSpec[]> Tables = new()
    {
        ["chlorides"] = ChlorideColumns.Specs,
        ["cover"] = CoverTable.Specs,
        ["half-cell"] = HalfCellTable.Specs,
        ["sounding"] = SoundingTable.Specs,
    };

    private static TableHead.Meaning? Meaning(string table, string head) =>
        TableHead.Read(head, Tables[table], null);

    [Theory]
    [InlineData("chlorides", "core", "Core core_no Core-Number core_id core_name")]
    [InlineData(
        "chlorides",
        "top",
        "top depth_top from depth_from top_depth slice_top start_depth"
    )]
    [InlineData(
        "chlorides",
        "bottom",
        "bottom depth_bottom to depth_to bottom_depth slice_bottom end_depth"
    )]
    [InlineData(
        "chlorides",
        "depth",
        "depth depth_center depth_centre mid_depth centre_depth center_depth"
    )]
    [InlineData(
        "chlorides",
        "chloride",
        "chloride chlorides chloride_content chloride_concentration Cl"
    )]
    [InlineData(
        "chlorides",
        "detection_limit",
        "detection_limit limit_of_detection reporting_limit limit"
    )]
    [InlineData("chlorides", "sd", "sd chloride_sd standard_deviation std_dev")]
    [InlineData("chlorides", "n", "n replicates determinations chloride_n")]
    [InlineData("chlorides", "replicate", "replicate rep determination")]
    [InlineData("chlorides", "unit", "unit units chloride_unit chloride_units")]
    [InlineData("chlorides", "depth_unit", "depth_unit depth_units")]
    [InlineData("chlorides", "age", "age exposure_age age_at_coring exposure")]
    [InlineData(
        "chlorides",
        "sampled",
        "sampled sampling_date date_sampled coring_date date_cored cored"
    )]
    [InlineData("chlorides", "first_salt", "first_salt first_salt_date date_first_salt")]
    [InlineData("chlorides", "on_crack", "on_crack crack cracked")]
    [InlineData("chlorides", "extraction", "extraction solubility")]
    [InlineData(
        "chlorides",
        "remark",
        "remark remarks note notes comment comments lab lab_no lab_id sample sample_id sample_no slice slice_no method test_method tested_by structure"
    )]
    [InlineData("cover", "cover", "cover cover_depth clear_cover top_cover")]
    [InlineData("cover", "unit", "unit units cover_unit")]
    [InlineData(
        "cover",
        "remark",
        "remark remarks note notes comment comments no point reading bar id location"
    )]
    [InlineData("half-cell", "potential", "potential half_cell half_cell_potential reading")]
    [InlineData("half-cell", "unit", "unit units potential_unit")]
    [InlineData(
        "half-cell",
        "remark",
        "remark remarks note notes comment comments no node point id"
    )]
    [InlineData("sounding", "finding", "finding type defect found condition")]
    [InlineData("sounding", "area", "area size")]
    [InlineData("sounding", "x_min", "x_min x_from x1")]
    [InlineData("sounding", "x_max", "x_max x_to x2")]
    [InlineData("sounding", "y_min", "y_min y_from y1")]
    [InlineData("sounding", "y_max", "y_max y_to y2")]
    [InlineData("sounding", "station_from", "station_from sta_from from_station")]
    [InlineData("sounding", "station_to", "station_to sta_to to_station")]
    [InlineData("sounding", "offset_from", "offset_from from_offset")]
    [InlineData("sounding", "offset_to", "offset_to to_offset")]
    [InlineData("sounding", "corners", "corners polygon")]
    [InlineData("sounding", "area_unit", "area_unit")]
    [InlineData(
        "sounding",
        "remark",
        "remark remarks note notes comment comments no id location span lane"
    )]
    public void Read_HeadInUse_MeansItsColumn(string table, string column, string heads) =>
        Assert.All(heads.Split(' '), head => Assert.Equal(column, Meaning(table, head)?.Spec.Name));

    [Theory]
    [InlineData("chlorides")]
    [InlineData("cover")]
    [InlineData("half-cell")]
    public void Read_Positions_AlikeInEveryTable(string table) =>
        Assert.Equal(
            ["x", "y", "station", "station", "offset", "position_unit", "position_unit"],
            new[]
            {
                "x_ft",
                "y_m",
                "station_ft",
                "Sta (ft)",
                "offset_m",
                "position_unit",
                "position_units",
            }.Select(h => Meaning(table, h)?.Spec.Name)
        );

    // Columns of one group take their unit from one column or one line: depths from depths, never from positions.
    [Theory]
    [InlineData("chlorides", "depth", "top bottom depth depth_unit")]
    [InlineData("chlorides", "chloride", "chloride detection_limit sd unit")]
    [InlineData("chlorides", "position", "x y station offset position_unit")]
    [InlineData("cover", "cover", "cover unit")]
    [InlineData("cover", "position", "x y station offset position_unit")]
    [InlineData("half-cell", "potential", "potential unit")]
    [InlineData("half-cell", "position", "x y station offset position_unit")]
    [InlineData("sounding", "area", "area area_unit")]
    [InlineData(
        "sounding",
        "position",
        "x_min x_max y_min y_max station_from station_to offset_from offset_to corners position_unit"
    )]
    public void Group_OfColumns_SharesOneUnit(string table, string group, string columns) =>
        Assert.Equal(
            columns.Split(' ').Order(StringComparer.Ordinal),
            Tables[table]
                .Where(s => s.Group == group)
                .Select(s => s.Name)
                .Order(StringComparer.Ordinal)
        );

    [Theory]
    [InlineData("chlorides", "chloride", Dimension.Chloride)]
    [InlineData("chlorides", "top", Dimension.Length)]
    [InlineData("chlorides", "age", Dimension.Time)]
    [InlineData("half-cell", "potential", Dimension.Potential)]
    [InlineData("sounding", "area", Dimension.Area)]
    public void Dimension_OfAColumn_IsWhatItMeasures(
        string table,
        string column,
        Dimension dimension
    ) => Assert.Equal(dimension, Meaning(table, column)?.Spec.Dimension);

    // What a message offers where a unit is missing.
    [Theory]
    [InlineData("chlorides", "core", "core")]
    [InlineData("chlorides", "chloride", "chloride_lb_per_yd3 or chloride_kg_per_m3")]
    [InlineData("chlorides", "age", "age_yr")]
    [InlineData("chlorides", "top", "top_in or top_mm")]
    [InlineData("chlorides", "x", "x_ft or x_m")]
    [InlineData("half-cell", "potential", "potential_mv_cse")]
    [InlineData("sounding", "area", "area_ft2 or area_m2")]
    public void Example_OfAColumn_IsAHeadThatIsUnderstood(
        string table,
        string column,
        string example
    )
    {
        Assert.Equal(example, Meaning(table, column)!.Spec.Example);
        Assert.All(
            example.Split(" or "),
            head =>
            {
                var meaning = Meaning(table, head)!;
                Assert.Equal((column, null), (meaning.Spec.Name, meaning.UnitProblem));
            }
        );
    }
}
