namespace MicRegister.Server.Accounts;

/// <summary>
/// The one table of what a phone of a campaign may ask for, beside what is open to anybody: a subset of the rows of
/// <see cref="DutyTable.Endpoints"/>. What is not in it is refused to a phone, whatever duties it holds.
/// </summary>
public static class PhoneTable
{
    /// <summary>Rows of method and route. Under a campaign it may ask of its own alone.</summary>
    public static IReadOnlySet<string> Endpoints { get; } = new HashSet<string>(StringComparer.OrdinalIgnoreCase)
    {
        "GET /api/me", // who it speaks as, and of which campaign
        "GET /api/campaigns/{id}/field-kit",
        "GET /api/labels/{code}", // what a label that it holds in its hands is on
        "POST /api/labels/photo",
        "POST /api/field/facts",
        "POST /api/attachments", // its photos; it reads none
        "POST /account/leave",
    };

    /// <summary>Whether a phone may ask for this.</summary>
    /// <param name="context">The request, with its route found.</param>
    /// <param name="campaign">The phone's own campaign.</param>
    public static bool Allows(HttpContext context, string? campaign)
    {
        if (context.GetEndpoint() is not RouteEndpoint { RoutePattern.RawText: { } raw }) return false;
        var (route, method) = ("/" + raw.Trim('/'), HttpMethods.IsHead(context.Request.Method) ? HttpMethods.Get : context.Request.Method);
        if (!Endpoints.Contains($"{method} {route}")) return false;
        return !route.StartsWith("/api/campaigns/{id}", StringComparison.Ordinal) || context.GetRouteValue("id") as string == campaign;
    }
}
