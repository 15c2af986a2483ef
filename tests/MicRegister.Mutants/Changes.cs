using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace MicRegister.Mutants;

/// <summary>
/// The changes that can be thought of in one file. Words are left alone: texts, what picks among them, reasons of exceptions.
/// </summary>
internal sealed class Changes(SyntaxTree tree, SemanticModel model)
{
    private static readonly Dictionary<string, string[]> Operators = new(StringComparer.Ordinal)
    {
        ["<"] = ["<=", ">"],
        ["<="] = ["<", ">"],
        [">"] = [">=", "<"],
        [">="] = [">", "<"],
        ["=="] = ["!="],
        ["!="] = ["=="],
        ["&&"] = ["||"],
        ["||"] = ["&&"],
        ["+"] = ["-"],
        ["-"] = ["+"],
        ["*"] = ["/"],
        ["/"] = ["*"],
        ["%"] = ["*"],
        ["&"] = ["|"],
        ["|"] = ["&"],
    };

    private static readonly string[][] Pairs =
    [
        ["Min", "Max"], ["MinBy", "MaxBy"], ["First", "Last"], ["FirstOrDefault", "LastOrDefault"], ["Any", "All"],
        ["OrderBy", "OrderByDescending"], ["ThenBy", "ThenByDescending"],
        ["Floor", "Ceiling"], ["AtLeast", "AtMost"], ["Order", "OrderDescending"], ["Skip", "Take"],
    ];

    private static readonly string[] Left =
    [
        "Where", "Distinct", "DistinctBy", "OrderBy", "OrderByDescending", "Order", "ThenBy", "Reverse", "Abs", "Skip", "Take",
        "Append", "Concat", "Trim",
    ];

    public IEnumerable<Mutant> All() => tree.GetRoot().DescendantNodes(n => !IsOfWords(n)).Where(n => !IsOfWords(n)).SelectMany(Of);

    private IEnumerable<Mutant> Of(SyntaxNode node)
    {
        switch (node)
        {
            case BinaryExpressionSyntax binary when !IsText(binary) && Operators.TryGetValue(binary.OperatorToken.Text, out var others):
                foreach (var other in others) yield return Instead(binary, $"{binary.Left} {other} {binary.Right}");
                break;
            case BinaryExpressionSyntax binary when binary.IsKind(SyntaxKind.CoalesceExpression) && !IsText(binary):
                yield return Instead(binary, binary.Right.ToString());
                break;
            case PrefixUnaryExpressionSyntax { OperatorToken.Text: "!" or "-" } prefix:
                yield return Instead(prefix, prefix.Operand.ToString());
                break;
            case IsPatternExpressionSyntax pattern:
                yield return Marked(pattern, Form.Negated, $"{Short(pattern)} → not so");
                break;
            case LiteralExpressionSyntax literal when literal.Token.Value is int or long or double:
                var more = literal.Token.Value is double and not 0 ? $"2 * {literal.Token.Text}" : $"{literal.Token.Text} + 1";
                yield return Instead(literal, more) with { Constant = Constant(literal) };
                break;
            case LiteralExpressionSyntax { Token.Text: "true" or "false" } literal:
                yield return Instead(literal, literal.Token.Text == "true" ? "false" : "true");
                break;
            case ConditionalExpressionSyntax conditional when !IsText(conditional):
                yield return Instead(conditional, conditional.WhenTrue.ToString());
                yield return Instead(conditional, conditional.WhenFalse.ToString());
                break;
            case InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax access } call
                when Other(access.Name.Identifier.Text) is { } other:
                var after = call.ToString()[(access.Name.Identifier.Span.End - call.SpanStart)..];
                yield return Instead(call, $"{access.Expression}.{other}{after}") with { Change = $"{Short(call)} → {other}" };
                break;
            case IfStatementSyntax guard when guard.Else is null && IsWayOut(guard.Statement):
                yield return Marked(guard.Condition, Form.Never, $"if ({Short(guard.Condition)}) → left out");
                break;
            case IfStatementSyntax choice:
                yield return Marked(choice.Condition, Form.Negated, $"if ({Short(choice.Condition)}) → not so");
                break;
            case ExpressionStatementSyntax
            {
                Expression: InvocationExpressionSyntax or AssignmentExpressionSyntax or PostfixUnaryExpressionSyntax
            }:
            case YieldStatementSyntax { Expression: not null }:
            case ContinueStatementSyntax { Parent: BlockSyntax } or BreakStatementSyntax { Parent: BlockSyntax }:
                yield return Marked(node, Form.LeftOut, $"{Short(node)} → left out");
                break;
        }
        if (node is InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax { Name.Identifier.Text: var name } on } dropped
            && Left.Contains(name) && !IsText(dropped))
        {
            var isMath = on.Expression is IdentifierNameSyntax { Identifier.Text: "Math" };
            var rest = isMath ? dropped.ArgumentList.Arguments[0].ToString() : on.Expression.ToString();
            yield return Instead(dropped, rest) with { Change = $"{Short(dropped)} → without {name}" };
        }
    }

    // A constant cannot be switched; where it is a field of the class, a field that is set once does as well.
    private static int? Constant(LiteralExpressionSyntax literal) =>
        literal.FirstAncestorOrSelf<FieldDeclarationSyntax>() is { } field
            && field.Modifiers.IndexOf(SyntaxKind.ConstKeyword) is var at and >= 0
            ? field.Modifiers[at].SpanStart
            : null;

    private static string? Other(string name) =>
        Pairs.FirstOrDefault(p => p.Contains(name)) is { } pair ? pair[0] == name ? pair[1] : pair[0] : null;

    private static bool IsWayOut(StatementSyntax statement) => statement switch
    {
        BlockSyntax { Statements: [.., var last] } => IsWayOut(last),
        ReturnStatementSyntax or ThrowStatementSyntax or ContinueStatementSyntax or BreakStatementSyntax => true,
        YieldStatementSyntax { Expression: null } => true,
        _ => false,
    };

    private bool IsText(ExpressionSyntax expression) => model.GetTypeInfo(expression).Type?.SpecialType == SpecialType.System_String;

    // Texts with figures in them, attributes, what goes into an exception, and hash codes, which need only be alike.
    private static bool IsOfWords(SyntaxNode node) => node switch
    {
        InterpolatedStringExpressionSyntax or AttributeListSyntax or MethodDeclarationSyntax { Identifier.Text: "GetHashCode" } => true,
        ArgumentListSyntax { Parent: ObjectCreationExpressionSyntax { Type: var type } } =>
            type.ToString().EndsWith("Exception", StringComparison.Ordinal),
        ArgumentListSyntax { Parent: InvocationExpressionSyntax { Expression: IdentifierNameSyntax called } } =>
            called.Identifier.Text is "Forbidden" or "Invalid" or "Missing",
        ArgumentSyntax { Expression: InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax access } } =>
            access.Expression is IdentifierNameSyntax { Identifier.Text: "FormattableString" },
        _ => false,
    };

    private Mutant Marked(SyntaxNode node, Form form, string change) =>
        new(tree.FilePath, Line(node), node.SpanStart, node.Span.Length, form, "", change);

    private Mutant Instead(ExpressionSyntax original, string mutated) =>
        Marked(original, Form.Instead, $"{Short(original)} → {Short(mutated)}") with { Mutated = $"({mutated})" };

    private int Line(SyntaxNode node) => tree.GetLineSpan(node.Span).StartLinePosition.Line + 1;

    private static string Short(object node)
    {
        var text = string.Join(' ', node.ToString()!.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return text.Length <= 90 ? text : text[..60] + " … " + text[^25..];
    }
}
