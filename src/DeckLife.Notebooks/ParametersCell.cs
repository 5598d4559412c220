using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Data;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace DeckLife.Notebooks;

/// <summary>The cell tagged <c>parameters</c>: declarations such as <c>double years = 25;</c> whose values a run may replace.</summary>
public static class ParametersCell
{
    private static readonly CSharpParseOptions Script = CSharpParseOptions.Default.WithKind(
        SourceCodeKind.Script
    );

    /// <summary>The parameters that a cell's source declares, in order.</summary>
    /// <param name="source">The cell's source.</param>
    public static ImmutableArray<NotebookParameter> Read(string source) =>
        [
            .. Declarators(CSharpSyntaxTree.ParseText(source, Script).GetRoot())
                .Select(d => new NotebookParameter(
                    d.Declarator.Identifier.Text,
                    d.Type,
                    d.Declarator.Initializer!.Value.ToString()
                )),
        ];

    /// <summary>The source with values replaced.</summary>
    /// <param name="source">The cell's source.</param>
    /// <param name="values">New values by name, as text in the invariant culture.</param>
    /// <exception cref="NotebookException">A name is not declared, or a value does not fit its type; all such problems are in the message.</exception>
    public static string Fill(string source, IReadOnlyDictionary<string, string> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var root = CSharpSyntaxTree.ParseText(source, Script).GetRoot();
        var declared = Declarators(root).ToList();
        var problems = new List<string>();
        var replacements = new Dictionary<SyntaxNode, SyntaxNode>();
        foreach (var (name, value) in values.OrderBy(v => v.Key, StringComparer.Ordinal))
        {
            var found = declared.FirstOrDefault(d => d.Declarator.Identifier.Text == name);
            if (found.Declarator is null)
            {
                var nearest = NearestName.Of(
                    name,
                    declared.Select(d => d.Declarator.Identifier.Text)
                );
                problems.Add(
                    declared.Count == 0
                        ? $"'{name}' is not a parameter: the notebook has none."
                        : $"'{name}' is not a parameter. "
                            + (nearest is null ? "" : $"Did you mean '{nearest}'? ")
                            + "The parameters are "
                            + string.Join(
                                ", ",
                                declared.Select(d => $"{d.Type} {d.Declarator.Identifier.Text}")
                            )
                            + "."
                );
            }
            else if (Literal(found.Type, value) is { } literal)
            {
                var old = found.Declarator.Initializer!.Value;
                replacements[old] = literal.WithTriviaFrom(old);
            }
            else
            {
                problems.Add($"Parameter '{name}': '{value}' is not a {Described(found.Type)}.");
            }
        }

        return problems.Count > 0
            ? throw new NotebookException(string.Join("\n", problems))
            : root.ReplaceNodes(replacements.Keys, (old, _) => replacements[old]).ToFullString();
    }

    private static IEnumerable<(VariableDeclaratorSyntax Declarator, string Type)> Declarators(
        SyntaxNode root
    ) =>
        root.DescendantNodes()
            .OfType<VariableDeclarationSyntax>()
            .Where(d => Described(d.Type.ToString()) is not null)
            .SelectMany(d =>
                d.Variables.Where(v => v.Initializer is not null)
                    .Select(v => (v, d.Type.ToString()))
            );

    private static string? Described(string type) =>
        type switch
        {
            "string" => "text",
            "double" => "number with a decimal point",
            "int" or "long" => "whole number",
            "ulong" => "whole number, 0 or more",
            "bool" => "true or false",
            _ => null,
        };

    private static ExpressionSyntax? Literal(string type, string value)
    {
        var culture = CultureInfo.InvariantCulture;
        const NumberStyles whole = NumberStyles.AllowLeadingSign;
        return type switch
        {
            "string" => SyntaxFactory.LiteralExpression(
                SyntaxKind.StringLiteralExpression,
                SyntaxFactory.Literal(value)
            ),
            "double"
                when double.TryParse(value, NumberStyles.Float, culture, out var d)
                    && double.IsFinite(d) => SyntaxFactory.ParseExpression(
                d.ToString("R", culture) + "d"
            ),
            "int" when int.TryParse(value, whole, culture, out var i) =>
                SyntaxFactory.ParseExpression(i.ToString(culture)),
            "long" when long.TryParse(value, whole, culture, out var l) =>
                SyntaxFactory.ParseExpression(l.ToString(culture)),
            "ulong" when ulong.TryParse(value, NumberStyles.None, culture, out var u) =>
                SyntaxFactory.ParseExpression(u.ToString(culture)),
            "bool" when value is "true" or "false" => SyntaxFactory.ParseExpression(value),
            _ => null,
        };
    }
}
