using MicRegister.Register;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Attachments by SHA-256, always as downloads.</summary>
internal static class AttachmentsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var attachments = app.MapGroup("/api/attachments").WithTags("attachments");
        attachments.MapPost("/", Keep)
            .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(IFactLog.MaxAttachmentBytes + 1024));
        attachments.MapGet("/{sha}", Send).AsOfNowAlone("An attachment is named by its bytes, which are the same in every state.");
    }

    // Never shown in the browser: a file of others runs nothing here.
    private static IResult Send(Desk desk, string sha)
    {
        if (desk.Live.Log.OpenAttachment(sha) is not { } content) return Answers.NotFound($"The attachment {sha} is not here.");
        Span<byte> first = stackalloc byte[4096];
        var ending = AttachmentType.Of(first[..content.ReadAtLeast(first, first.Length, throwOnEndOfStream: false)]) ?? "";
        content.Position = 0;
        return Results.Stream(content, "application/octet-stream", sha[..12] + ending);
    }

    private static async Task<IResult> Keep(HttpContext context, Desk desk)
    {
        using var content = new MemoryStream();
        await context.Request.Body.CopyToAsync(content, context.RequestAborted);
        if (content.Length is 0 or > IFactLog.MaxAttachmentBytes)
            return Answers.Invalid($"An attachment has 1 byte to {IFactLog.MaxAttachmentBytes >> 20} MB; "
                + $"this one has {content.Length} bytes.");
        if (AttachmentType.Of(content.GetBuffer().AsSpan(0, (int)content.Length)) is null)
            return Answers.Invalid($"This is no file that can be attached: {AttachmentType.Allowed} are taken.");
        content.Position = 0;
        return Results.Ok(new { sha256 = desk.Live.Log.KeepAttachment(content) });
    }
}
