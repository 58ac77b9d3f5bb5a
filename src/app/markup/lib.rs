//! Leptos' notation for views, written out as elements of one type.
//!
//! Leptos gives each element a type made of the types of all that is in it, and the compiler writes the code that
//! draws it anew for each of those. Here every element is an `element::El` of the page, put together by calls.

use proc_macro2::{Span, TokenStream};
use quote::{ToTokens, quote, quote_spanned};
use rstml::node::{KeyedAttribute, Node, NodeAttribute, NodeBlock, NodeElement};
use std::sync::atomic::{AtomicU32, Ordering};
use syn::{Block, Expr, Ident, Result, Stmt, spanned::Spanned};

/// A view, in the notation of Leptos: `<p class="soft">{says}</p>`, `<Field label value/>`.
///
/// Elements know `name=value`, `class:name=yes`, `style:name=text`, `prop:name=value`, `on:event=f`,
/// `on:event:target=f` and `node_ref=place`.
#[proc_macro]
pub fn view(tokens: proc_macro::TokenStream) -> proc_macro::TokenStream {
    let view = rstml::parse2(tokens.into()).and_then(|nodes| view_tokens(&nodes));
    view.unwrap_or_else(|error| error.into_compile_error()).into()
}

/// Nodes side by side, as one view.
fn view_tokens(nodes: &[Node]) -> Result<TokenStream> {
    let views = nodes.iter().map(root_tokens).collect::<Result<Vec<_>>>()?;
    Ok(match views.as_slice() {
        [one] => one.clone(),
        several => quote! { crate::element::several([#(::leptos::prelude::IntoAny::into_any(#several)),*]) },
    })
}

fn root_tokens(node: &Node) -> Result<TokenStream> {
    // Two views drawn at the same place of the page, one after the other, are told apart by this.
    static SITE: AtomicU32 = AtomicU32::new(0);
    let root = node_tokens(node)?;
    Ok(match node {
        Node::Element(element) if !is_component(element) => {
            let site = SITE.fetch_add(1, Ordering::Relaxed);
            quote! { #root.whole(#site) }
        }
        _ => root,
    })
}

fn node_tokens(node: &Node) -> Result<TokenStream> {
    match node {
        Node::Element(element) if is_component(element) => component_tokens(element),
        Node::Element(element) => element_tokens(element),
        Node::Text(text) => Ok(text.value.to_token_stream()),
        Node::Block(NodeBlock::ValidBlock(block)) => Ok(block_tokens(block)),
        other => Err(syn::Error::new(
            other.span(),
            "an element, a component, a text or a block belongs here",
        )),
    }
}

/// A block of one expression without its braces.
fn block_tokens(block: &Block) -> TokenStream {
    match block.stmts.as_slice() {
        [Stmt::Expr(one, None)] => one.to_token_stream(),
        _ => block.to_token_stream(),
    }
}

fn is_component(element: &NodeElement<rstml::Infallible>) -> bool {
    let name = element.name().to_string();
    let last = name.rsplit("::").next().unwrap_or_default();
    last.trim().starts_with(char::is_uppercase)
}

fn element_tokens(element: &NodeElement<rstml::Infallible>) -> Result<TokenStream> {
    let tag = element.name().to_string();
    let start = if SVG.contains(&tag.as_str()) { "svg" } else { "html" };
    let start = Ident::new(start, element.name().span());
    let attributes = element.attributes().iter().map(|attribute| match attribute {
        NodeAttribute::Attribute(attribute) => attribute_tokens(&tag, attribute),
        NodeAttribute::Block(block) => Err(syn::Error::new(block.span(), "an attribute needs its name")),
    });
    let attributes = attributes.collect::<Result<Vec<_>>>()?;
    let children = element.children.iter().map(child_tokens).collect::<Result<Vec<_>>>()?;
    Ok(quote! { crate::element::El::#start(#tag)#(#attributes)*#(#children)* })
}

fn child_tokens(node: &Node) -> Result<TokenStream> {
    let child = node_tokens(node)?;
    Ok(match node {
        Node::Element(element) if !is_component(element) => quote! { .el(#child) },
        _ => quote! { .child(#child) },
    })
}

/// Elements drawn, not written.
const SVG: [&str; 11] = [
    "svg", "g", "path", "rect", "circle", "line", "text", "title", "defs", "pattern", "clipPath",
];

fn attribute_tokens(tag: &str, attribute: &KeyedAttribute) -> Result<TokenStream> {
    let key = attribute.key.to_string();
    let span = attribute.key.span();
    let value = value_tokens(attribute).unwrap_or_else(|| quote! { "" });
    let parts: Vec<&str> = key.split(':').map(str::trim).collect();
    Ok(match parts.as_slice() {
        ["on", event] => {
            let kind = Ident::new(event, span);
            quote_spanned! { span=> .on(::leptos::ev::#kind, #event, #value) }
        }
        ["on", event, "target"] => {
            let (kind, element) = (Ident::new(event, span), capital(tag, span));
            quote_spanned! { span=> .on_target::<_, ::leptos::html::#element>(::leptos::ev::#kind, #event, #value) }
        }
        ["class", name] => quote! { .class(#name, #value) },
        ["style", name] => quote! { .style(#name, #value) },
        ["prop", "value"] => quote! { .typed(#value) },
        ["prop", "checked"] => quote! { .ticked(#value) },
        ["node_ref"] => {
            let element = capital(tag, span);
            quote! { .place::<::leptos::html::#element>(#value) }
        }
        [name] => quote! { .set(#name, #value) },
        _ => return Err(syn::Error::new(span, "no such kind of attribute")),
    })
}

fn value_tokens(attribute: &KeyedAttribute) -> Option<TokenStream> {
    Some(match attribute.value()? {
        Expr::Block(block) => block_tokens(&block.block),
        value => value.to_token_stream(),
    })
}

/// The name Leptos gives an element's type.
fn capital(tag: &str, span: Span) -> Ident {
    let mut letters = tag.chars();
    let first = letters.next().map(|first| first.to_ascii_uppercase());
    Ident::new(&first.into_iter().chain(letters).collect::<String>(), span)
}

/// Called as Leptos calls its own.
fn component_tokens(element: &NodeElement<rstml::Infallible>) -> Result<TokenStream> {
    let name = element.name();
    let props = element.attributes().iter().map(|attribute| match attribute {
        NodeAttribute::Attribute(attribute) => {
            let key = &attribute.key;
            let value = value_tokens(attribute).unwrap_or_else(|| quote! { #key });
            Ok(quote! { .#key(#value) })
        }
        NodeAttribute::Block(block) => Err(syn::Error::new(block.span(), "a prop needs its name")),
    });
    let props = props.collect::<Result<Vec<_>>>()?;
    let children = if element.children.is_empty() {
        TokenStream::new()
    } else {
        let children = view_tokens(&element.children)?;
        quote! { .children(::leptos::children::ToChildren::to_children(move || #children)) }
    };
    Ok(quote! {
        ::leptos::component::component_view(
            &#name,
            ::leptos::component::component_props_builder(&#name)#(#props)*#children.build(),
        )
    })
}
