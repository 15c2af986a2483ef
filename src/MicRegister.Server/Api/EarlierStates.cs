using System.Globalization;
using System.Text.Json.Nodes;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace MicRegister.Server.Api;

/// <summary>
/// Reads of an earlier state of the log, by <c>?sequence=</c>: every read answers from the state that it names, or is marked as one that
/// cannot and says why. Nothing else is possible: what a read is not marked for, the desk gives it the state of.
/// </summary>
internal static class EarlierStates
{
    /// <summary>Name of the question.</summary>
    public const string Sequence = "sequence";

    /// <summary>Why a read answers as of now alone, as a sentence.</summary>
    public sealed record NowAlone(string Why);

    /// <summary>Marks reads that answer as of now alone.</summary>
    public static T AsOfNowAlone<T>(this T endpoint, string why)
        where T : IEndpointConventionBuilder => endpoint.WithMetadata(new NowAlone(why));

    /// <summary>Lets a read answer from the state that it names, or refuses it.</summary>
    public static async Task Lead(HttpContext context, RequestDelegate next)
    {
        if (!IsRead(context.Request.Method) || context.GetEndpoint() is not RouteEndpoint endpoint || !IsOurs(endpoint)
            || !context.Request.Query.TryGetValue(Sequence, out var asked))
        {
            await next(context);
            return;
        }
        var desk = context.RequestServices.GetRequiredService<Desk>();
        if (endpoint.Metadata.GetMetadata<NowAlone>() is { } now)
        {
            await Answers.Invalid($"Sequence '{asked}': {now.Why}").ExecuteAsync(context);
            return;
        }
        var newest = desk.Now.Count;
        if (!int.TryParse(asked, NumberStyles.None, CultureInfo.InvariantCulture, out var at) || at > newest)
        {
            await Answers.Invalid($"Sequence '{asked}': allowed is a whole number from 0 to {newest}.").ExecuteAsync(context);
            return;
        }
        if (await context.RequestServices.GetRequiredService<PastRegisters>().At(at, context.RequestAborted) is not { } register)
        {
            context.Response.Headers.RetryAfter = PastRegisters.Patience.TotalSeconds.ToString(CultureInfo.InvariantCulture);
            await Results.Problem(
                "Earlier states of the log are being worked out for others; try again in a little while.",
                statusCode: StatusCodes.Status429TooManyRequests, title: "Too many requests").ExecuteAsync(context);
            return;
        }
        desk.ReadFrom(register);
        await next(context);
    }

    /// <summary>Says in the API's document which reads answer from earlier states, and why others do not.</summary>
    public static Task Say(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancel)
    {
        if (!IsRead(context.Description.HttpMethod ?? "")) return Task.CompletedTask;
        if (context.Description.ActionDescriptor.EndpointMetadata.OfType<NowAlone>().FirstOrDefault() is { } now)
        {
            operation.Description = $"{operation.Description} No earlier state: {now.Why}".Trim();
            return Task.CompletedTask;
        }
        operation.Parameters ??= [];
        operation.Parameters.Add(new OpenApiParameter
        {
            Name = Sequence,
            In = ParameterLocation.Query,
            Description = "Answer from the state of the log at this sequence; the newest where it is left out.",
            Schema = new OpenApiSchema { Type = JsonSchemaType.Integer, Minimum = JsonValue.Create(0).ToString() },
        });
        return Task.CompletedTask;
    }

    /// <summary>Whether an endpoint reads the register for programs.</summary>
    public static bool IsOurs(RouteEndpoint endpoint)
    {
        var route = "/" + endpoint.RoutePattern.RawText?.Trim('/');
        return route.StartsWith("/api/", StringComparison.Ordinal) || route.StartsWith("/calendar/", StringComparison.Ordinal);
    }

    private static bool IsRead(string method) => HttpMethods.IsGet(method) || HttpMethods.IsHead(method);
}
