using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>The columns of a chloride table.</summary>
internal static class ChlorideColumns
{
    public static readonly ColumnSpec[] Specs =
    [
        new("core", ColumnKind.Text, Synonyms: ["core_no", "core_number", "core_id", "core_name"]),
        new(
            "top",
            ColumnKind.Quantity,
            Dimension.Length,
            "depth",
            ["depth_top", "from", "depth_from", "top_depth", "slice_top", "start_depth"]
        ),
        new(
            "bottom",
            ColumnKind.Quantity,
            Dimension.Length,
            "depth",
            ["depth_bottom", "to", "depth_to", "bottom_depth", "slice_bottom", "end_depth"]
        ),
        new(
            "depth",
            ColumnKind.Quantity,
            Dimension.Length,
            "depth",
            ["depth_center", "depth_centre", "mid_depth", "centre_depth", "center_depth"]
        ),
        new(
            "chloride",
            ColumnKind.Quantity,
            Dimension.Chloride,
            "chloride",
            ["chlorides", "chloride_content", "chloride_concentration", "cl"]
        ),
        new(
            "detection_limit",
            ColumnKind.Quantity,
            Dimension.Chloride,
            "chloride",
            ["limit_of_detection", "reporting_limit", "limit"]
        ),
        new(
            "sd",
            ColumnKind.Quantity,
            Dimension.Chloride,
            "chloride",
            ["chloride_sd", "standard_deviation", "std_dev"]
        ),
        new("n", ColumnKind.Count, Synonyms: ["replicates", "determinations", "chloride_n"]),
        new("replicate", ColumnKind.Text, Synonyms: ["rep", "determination"]),
        new(
            "unit",
            ColumnKind.UnitOf,
            Group: "chloride",
            Synonyms: ["units", "chloride_unit", "chloride_units"]
        ),
        new("depth_unit", ColumnKind.UnitOf, Group: "depth", Synonyms: ["depth_units"]),
        new("position_unit", ColumnKind.UnitOf, Group: "position", Synonyms: ["position_units"]),
        new(
            "age",
            ColumnKind.Quantity,
            Dimension.Time,
            "age",
            ["exposure_age", "age_at_coring", "exposure"]
        ),
        new(
            "sampled",
            ColumnKind.Date,
            Synonyms: ["sampling_date", "date_sampled", "coring_date", "date_cored", "cored"]
        ),
        new("first_salt", ColumnKind.Date, Synonyms: ["first_salt_date", "date_first_salt"]),
        new("x", ColumnKind.Quantity, Dimension.Length, "position"),
        new("y", ColumnKind.Quantity, Dimension.Length, "position"),
        new("station", ColumnKind.Station, Dimension.Length, "position", ["sta"]),
        new("offset", ColumnKind.Quantity, Dimension.Length, "position"),
        new("on_crack", ColumnKind.Flag, Synonyms: ["crack", "cracked"]),
        new("extraction", ColumnKind.Text, Synonyms: ["solubility"]),
        new(
            "remark",
            ColumnKind.Remark,
            Synonyms:
            [
                "remarks",
                "note",
                "notes",
                "comment",
                "comments",
                "lab",
                "lab_no",
                "lab_id",
                "sample",
                "sample_id",
                "sample_no",
                "slice",
                "slice_no",
                "method",
                "test_method",
                "tested_by",
                "structure",
            ]
        ),
    ];
}
