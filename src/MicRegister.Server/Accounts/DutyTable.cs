using MicRegister.Register.Facts;
using static MicRegister.Register.Facts.Duties;

namespace MicRegister.Server.Accounts;

/// <summary>
/// The one table of who may do what: every endpoint, page and hub with the duties that allow it; those of a kind of fact stand in its
/// own row. What is not in it is refused. An owner may do all that anybody may.
/// </summary>
public static class DutyTable
{
    /// <summary>Open to whoever asks, signed in or not.</summary>
    public const Duties Anybody = (Duties)(1 << 20);

    /// <summary>Rows of method and route. A method of * holds for all.</summary>
    public static IReadOnlyDictionary<string, Duties> Endpoints { get; } = new Dictionary<string, Duties>(StringComparer.OrdinalIgnoreCase)
    {
        // Reading
        ["GET /api/openapi.json"] = Any,
        ["GET /api/me"] = Any,
        ["GET /api/devices"] = Any,
        ["GET /api/devices/{id}"] = Any,
        ["GET /api/devices/{id}/certificates"] = Any,
        ["GET /api/devices/{id}/class"] = Any,
        ["GET /api/devices/{id}/forecast"] = Any,
        ["GET /api/devices/{id}/entry-check"] = Any,
        ["GET /api/devices/{id}/checks"] = Any,
        ["GET /api/devices/{id}/couplings"] = Any,
        ["GET /api/devices/{id}/history.{format}"] = Any,
        ["GET /api/devices/{id}/checks.{format}"] = Any,
        ["GET /api/fleet/devices.{format}"] = Any,
        ["GET /api/fleet/results.{format}"] = Any,
        ["GET /api/fleet/inspections.{format}"] = Any,
        ["GET /api/fleet/campaigns.{format}"] = Any,
        ["GET /api/fleet/stations.{format}"] = Any,
        ["GET /api/fleet/kit.{format}"] = Any,
        ["GET /api/fleet/limits.{format}"] = Any,
        ["GET /api/fleet/settings.{format}"] = Any,
        ["GET /api/fleet/register.xlsx"] = Any,
        ["GET /api/campaigns/{id}/plan.{format}"] = Any,
        ["GET /api/labels/{code}"] = Any,
        ["GET /api/labels/sheet.{format}"] = Any,
        ["GET /api/devices/{id}/response"] = Any,
        ["GET /api/certificates/{fact}/curve"] = Any,
        ["GET /api/certificates/{fact}/curve.{format}"] = Any,
        ["GET /api/campaigns"] = Any,
        ["GET /api/campaigns/{id}"] = Any,
        ["GET /api/campaigns/{id}/stations"] = Any,
        ["GET /api/campaigns/{id}/checks"] = Any,
        ["GET /api/campaigns/{id}/checks/superseded"] = Any,
        ["GET /api/campaigns/{id}/map.{format}"] = Any,
        ["GET /api/campaigns/{id}/readiness"] = Any,
        ["GET /api/campaigns/{id}/field-kit"] = Any,
        ["GET /api/campaigns/{id}/deployment"] = Any,
        ["GET /api/campaigns/{id}/events"] = Any,
        ["GET /api/campaigns/{id}/analysis.{format}"] = Any,
        ["GET /api/campaigns/{id}/bands.{format}"] = Any,
        ["GET /api/campaigns/{id}/budget.{format}"] = Any,
        ["GET /api/campaigns/{id}/covariance.{format}"] = Any,
        ["GET /api/campaigns/{id}/comparisons"] = Any,
        ["GET /api/campaigns/{id}/sessions"] = Any,
        ["GET /api/campaigns/{id}/evidence.pdf"] = Any,
        ["GET /api/campaigns/{id}/surveys"] = Any,
        ["GET /api/campaigns/{id}/weather"] = Any,
        ["GET /api/set-ups"] = Any,
        ["GET /api/mounts"] = Any,
        ["GET /api/mounts/table.{format}"] = Any,
        ["GET /api/mounts/plot.{format}"] = Any,
        ["GET /api/events/{id}"] = Any,
        ["GET /api/events/{id}/trace"] = Any,
        ["GET /api/events/{id}/bands"] = Any,
        ["GET /api/rests-on/{kind}/{id}"] = Any,
        ["GET /api/doubts"] = Any,
        ["GET /api/doubts/{key}"] = Any,
        ["GET /calendar/{secret}.ics"] = Anybody, // the secret is the key; it is a token that can be revoked
        ["GET /api/profiles"] = Any,
        ["GET /api/profiles/{id}"] = Any,
        ["GET /api/profiles/{id}/editions"] = Any,
        ["GET /api/profiles/{id}/compare"] = Any,
        ["GET /api/drift"] = Any,
        ["GET /api/imports"] = Any,
        ["GET /api/imports/{id}/take-back"] = Any,
        ["GET /api/imports/{id}/legend"] = Any,
        ["GET /api/imports/templates/{table}.{format}"] = Any,
        ["GET /api/facts"] = Any,
        ["GET /api/facts/head"] = Any,
        ["GET /api/facts/lines"] = Any,
        ["GET /api/facts/{id}"] = Any,
        ["GET /api/attachments/{sha}"] = Any,
        ["POST /api/tones"] = Any,
        ["POST /api/checks/work-out"] = Any,
        ["POST /api/checks/recordings/work-out"] = Any,
        ["POST /api/data-sheets"] = Any,
        ["POST /api/digital-certificates"] = Any,

        // Stating: the kinds of facts are looked at once more at the register's door
        ["POST /api/devices"] = Plan,
        ["PATCH /api/devices/{id}"] = Plan,
        ["POST /api/devices/{id}/places"] = Field | Bench | Plan,
        ["POST /api/devices/{id}/statuses"] = Field | Bench | Plan,
        ["POST /api/devices/{id}/notes"] = Field | Bench | Plan,
        ["POST /api/devices/{id}/services"] = Field | Bench | Plan,
        ["POST /api/devices/{id}/inspections"] = Field | Bench | Plan,
        ["POST /api/devices/{id}/joins"] = Plan,
        ["POST /api/devices/{id}/labels"] = Field | Bench | Plan,
        ["POST /api/devices/{id}/couplings"] = Bench,
        ["POST /api/certificates"] = Bench | Plan,
        ["POST /api/curves"] = Bench | Plan,
        ["PUT /api/certificates/{fact}"] = Bench | Plan,
        ["POST /api/certificates/{fact}/reviews"] = Bench | Plan,
        ["POST /api/certificates/{fact}/choices"] = Bench | Plan,
        ["POST /api/checks/again"] = Field | Bench,
        ["POST /api/checks"] = Field | Bench,
        ["POST /api/checks/recordings"] = Field | Bench,
        ["PUT /api/campaigns/{id}"] = Plan,
        ["PUT /api/campaigns/{id}/stations/{station}"] = Plan,
        ["DELETE /api/campaigns/{id}/stations/{station}"] = Plan,
        ["PUT /api/campaigns/{id}/stations/{station}/chain"] = Plan,
        ["PUT /api/campaigns/{id}/kit/{purpose}"] = Plan,
        ["PUT /api/profiles/{id}"] = Plan,
        ["POST /api/profiles/{id}/preview"] = Plan, // nothing is stored, but it costs and is for who may
        ["POST /api/profiles/{id}/confirmations"] = Plan,
        ["POST /api/imports"] = Plan,
        ["POST /api/imports/files"] = Plan,
        ["POST /api/imports/{id}/take-back"] = Plan,
        ["POST /api/imports/{id}/count-again"] = Plan,
        ["POST /api/facts"] = Field | Bench | Plan,
        ["POST /api/facts/{id}/annulments"] = Field | Bench | Plan,
        ["POST /api/facts/handed-over"] = Own,
        ["POST /api/campaigns/{id}/events"] = Field | Plan,
        ["POST /api/campaigns/{id}/events/table"] = Field | Plan,
        ["POST /api/campaigns/{id}/recordings"] = Field | Plan,
        ["POST /api/campaigns/{id}/clocks"] = Field | Plan,
        ["POST /api/campaigns/{id}/clock-checks"] = Field | Plan,
        ["POST /api/campaigns/{id}/clock-hours"] = Field | Plan,
        ["POST /api/campaigns/{id}/incidences"] = Field | Plan,
        ["POST /api/campaigns/{id}/sessions"] = Field | Plan,
        ["POST /api/campaigns/{id}/surveys"] = Field | Plan,
        ["POST /api/campaigns/{id}/surveys/table"] = Field | Plan,
        ["POST /api/campaigns/{id}/weather"] = Field | Bench | Plan,
        ["POST /api/campaigns/{id}/weather/table"] = Field | Plan,
        ["POST /api/campaigns/{id}/comparisons"] = Field | Bench,
        ["POST /api/campaigns/{id}/sensitivity-rule"] = Plan,
        ["POST /api/doubts/{key}/settlements"] = Bench | Plan,
        ["POST /api/field/facts"] = Field | Bench | Plan,
        ["POST /api/labels/photo"] = Any,
        ["* /field"] = Anybody,
        ["* /field/sw.js"] = Anybody,
        ["POST /api/attachments"] = Field | Bench | Plan,

        // Signing in and out, and what pages are made of
        ["POST /account/enter"] = Anybody,
        ["POST /account/first-owner"] = Anybody,
        ["POST /account/password-link"] = Anybody,
        ["POST /account/join"] = Anybody,
        ["GET /account/outside"] = Anybody,
        ["POST /account/leave"] = Any,
        ["POST /account/leave-everywhere"] = Any,
        ["POST /account/password"] = Any,
        ["GET /trust/authority.crt"] = Anybody,
        ["GET /look.css"] = Anybody,
        ["* /{**path:file}"] = Anybody, // files of wwwroot while it is developed
        ["* /_blazor"] = Any,
        ["* /_blazor/negotiate"] = Any,
        ["* /_blazor/disconnect"] = Any,
        ["* /_blazor/initializers"] = Any,
    };

    /// <summary>Rows of pages, by their route.</summary>
    public static IReadOnlyDictionary<string, Duties> Pages { get; } = new Dictionary<string, Duties>(StringComparer.OrdinalIgnoreCase)
    {
        ["/"] = Any,
        ["/fleet"] = Any,
        ["/fleet/print"] = Any,
        ["/compare"] = Any,
        ["/devices/{Id}"] = Any,
        ["/devices/{Id}/{Word}"] = Any,
        ["/drift"] = Any,
        ["/tones"] = Any,
        ["/checks"] = Any,
        ["/checks/{Campaign}"] = Any,
        ["/bench"] = Bench | Plan,
        ["/campaigns"] = Any,
        ["/campaigns/{Id}"] = Any,
        ["/plan"] = Plan,
        ["/plan/{Id}"] = Plan,
        ["/profiles"] = Any,
        ["/profiles/{Id}"] = Any,
        ["/profiles/{Id}/compare"] = Any,
        ["/import"] = Plan,
        ["/l/{Code}"] = Any,
        ["/board/{Campaign}"] = Any,
        ["/hand-over"] = Own,
        ["/in-place/{Campaign}"] = Any,
        ["/events/{Campaign}"] = Any,
        ["/events/{Campaign}/{Event}"] = Any,
        ["/doubts"] = Any,
        ["/doubts/{Key}"] = Any,
        ["/rests-on/{Kind}/{Id}"] = Any,
        ["/evidence/{Campaign}"] = Any,
        ["/set-ups"] = Any,
        ["/mounts"] = Any,
        ["/labels"] = Field | Bench | Plan,
        ["/journal"] = Any,
        ["/me"] = Any,
        ["/people"] = Own,
        ["/sign-in"] = Anybody,
        ["/first-owner"] = Anybody,
        ["/password-link"] = Anybody,
        ["/join"] = Anybody,
        ["/trust"] = Anybody,
        ["/missing"] = Anybody,
        ["/not-allowed"] = Anybody,
    };

    /// <summary>Duties that allow an endpoint; null where it is not in the table, which refuses it.</summary>
    public static Duties? Of(Endpoint? endpoint, string method)
    {
        if (endpoint?.Metadata.GetMetadata<Microsoft.AspNetCore.StaticAssets.StaticAssetDescriptor>() is not null) return Anybody;
        if (endpoint is not RouteEndpoint { RoutePattern.RawText: { } raw }) return null;
        var route = "/" + raw.Trim('/');
        if (endpoint.Metadata.GetMetadata<Microsoft.AspNetCore.Components.Endpoints.ComponentTypeMetadata>() is not null)
            return OfPage(route);
        if (route.StartsWith("/_framework/", StringComparison.Ordinal)) return Anybody; // scripts of the framework itself
        if (HttpMethods.IsHead(method)) method = HttpMethods.Get;
        return Endpoints.TryGetValue($"{method} {route}", out var duties) || Endpoints.TryGetValue($"* {route}", out duties)
            ? duties : null;
    }

    /// <summary>Duties that allow a page; null where it is not in the table.</summary>
    public static Duties? OfPage(string route) => Pages.TryGetValue("/" + route.Trim('/'), out var duties) ? duties : null;

    /// <summary>Duties that allow stating a kind of fact, and annulling it; what a newer version wrote is for who plans.</summary>
    public static Duties OfKind(string kind) => FactKinds.Find(kind)?.StatedBy ?? Plan;
}
